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

/** "24 February to 12 March 2026": the year once, the day once. */
export function dateSpan(from: string, to: string): string {
  if (from === to) return dateWords(from);
  const first = dateWords(from);
  return from.slice(0, 4) === to.slice(0, 4)
    ? `${first.replace(/ \d{4}$/, "")} to ${dateWords(to)}`
    : `${first} to ${dateWords(to)}`;
}
