/** Shortens long input for a message. */
export const shorten = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);
