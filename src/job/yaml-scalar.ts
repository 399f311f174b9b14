/** A text as one YAML value: quoted wherever YAML might read more into it than its letters. */
export const yamlScalar = (text: string): string =>
  /^[\w][\w .%/-]*$/.test(text) && !/ $/.test(text) ? text : JSON.stringify(text);
