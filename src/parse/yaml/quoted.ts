/** A text of one line in quotes, as it is typed in YAML. */
export const quoted = (text: string): string => (/["\\]/.test(text) ? `'${text.replaceAll("'", "''")}'` : `"${text}"`);
