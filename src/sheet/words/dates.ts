const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** "2026-03-18" as "18 March 2026": no reader takes the month for the day. Other text is left as it is. */
export function dateWords(date: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  const month = parts && MONTHS[Number(parts[2]) - 1];
  return parts && month ? `${Number(parts[3])} ${month} ${parts[1]}` : date;
}

/** "June to August 2026", of the days on which something was measured; the year once, the month once. */
export function monthSpan(days: readonly string[]): string {
  const [from, to] = [days.toSorted()[0], days.toSorted().at(-1)];
  if (from === undefined || to === undefined) return "";
  const [first, last] = [from, to].map((day) => dateWords(day).replace(/^\d+ /, "")) as [string, string];
  if (first === last) return last;
  return `${from.slice(0, 4) === to.slice(0, 4) ? first.replace(/ \d{4}$/, "") : first} to ${last}`;
}

/** "24 February to 12 March 2026": the year once, the day once. */
export function dateSpan(from: string, to: string): string {
  if (from === to) return dateWords(from);
  const first = dateWords(from);
  return from.slice(0, 4) === to.slice(0, 4)
    ? `${first.replace(/ \d{4}$/, "")} to ${dateWords(to)}`
    : `${first} to ${dateWords(to)}`;
}
