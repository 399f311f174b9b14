/** Power as an upper bound on air, named for what it is. */
export const airPower = (power: string): string => `Air for at most about ${power} (rule of thumb, bare head).`;
