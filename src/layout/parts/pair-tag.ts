/** Tag of a label or its value: an item of a list, the label its term (ISO 32000-1, table 336). */
export const pairTag = (list: string, index: number, part: "label" | "body") =>
  ({ kind: "list-item", list, id: `${list}-${index}`, part }) as const;
