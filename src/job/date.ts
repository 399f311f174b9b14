/** What is wrong with a date, or nothing. Days are written year first: that way nobody reads the month as the day. */
export function dateFault(typed: string): { message: string; params: { code: "job/date"; hint: string } } | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(typed.trim());
  const hint = "write year, month and day, such as 2026-03-18";
  if (!match) return { message: `\`${typed}\` is not a date`, params: { code: "job/date", hint } };
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const made = new Date(Date.UTC(year, month - 1, day));
  const exists = year >= 1000 && made.getUTCMonth() === month - 1 && made.getUTCDate() === day;
  return exists ? undefined : { message: `the day \`${typed}\` does not exist`, params: { code: "job/date", hint } };
}
