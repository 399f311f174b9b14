import ts from "typescript";

export type JsonSchema = { readonly [key: string]: unknown };

/**
 * JSON Schema (draft 2020-12) of an exported type, read from its source: the type is the contract, and the schema cannot
 * say anything else. Named types become definitions, comments become descriptions, and no unknown key is allowed.
 */
export function schemaOfType(file: string, name: string, extra: JsonSchema): JsonSchema {
  const program = ts.createProgram([file], { strict: true, lib: ["lib.es5.d.ts"], types: [] });
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(file);
  const module = source && checker.getSymbolAtLocation(source);
  const symbol = module && checker.getExportsOfModule(module).find((one) => one.name === name);
  if (!symbol) throw new Error(`${file} exports no type ${name}`);

  const definitions = new Map<string, JsonSchema>();
  const describe = (one: ts.Symbol): JsonSchema => {
    const text = ts.displayPartsToString(one.getDocumentationComment(checker));
    return text === "" ? {} : { description: text };
  };

  const schemaOf = (type: ts.Type): JsonSchema => {
    const alias = type.aliasSymbol;
    const flat = { inline: type, own: alias !== undefined && alias.name !== name && alias.name !== "Pick" };
    if (!flat.own) return shapeOf(type);
    const known = alias!.name;
    if (!definitions.has(known)) {
      definitions.set(known, {});
      definitions.set(known, { ...describe(alias!), ...shapeOf(type) });
    }
    return { $ref: `#/$defs/${known}` };
  };

  const shapeOf = (type: ts.Type): JsonSchema => {
    if (type.isStringLiteral() || type.isNumberLiteral()) return { const: type.value };
    if (type.flags & ts.TypeFlags.String) return { type: "string" };
    if (type.flags & ts.TypeFlags.Number) return { type: "number" };
    if (type.flags & ts.TypeFlags.BooleanLiteral) return { const: checker.typeToString(type) === "true" };
    if (type.flags & ts.TypeFlags.Boolean) return { type: "boolean" };
    if (type.isUnion()) return unionOf(type.types);
    if (checker.isTupleType(type)) {
      const items = checker.getTypeArguments(type as ts.TypeReference).map(schemaOf);
      return { type: "array", prefixItems: items, items: false, minItems: items.length };
    }
    if (checker.isArrayType(type)) {
      return { type: "array", items: schemaOf(checker.getTypeArguments(type as ts.TypeReference)[0]!) };
    }
    if (type.isIntersection() || type.flags & ts.TypeFlags.Object) return objectOf(type);
    throw new Error(`no schema for ${checker.typeToString(type)}`);
  };

  const unionOf = (types: readonly ts.Type[]): JsonSchema => {
    const members = types.filter((one) => !(one.flags & ts.TypeFlags.Undefined));
    const literals = members.flatMap((one) => (one.isStringLiteral() || one.isNumberLiteral() ? [one.value] : []));
    const booleans = members.filter((one) => one.flags & ts.TypeFlags.BooleanLiteral);
    const others = members.filter((one) => !one.isLiteral() && !(one.flags & ts.TypeFlags.BooleanLiteral));
    const parts = [
      ...others.map(schemaOf),
      ...(booleans.length === 2 ? [{ type: "boolean" }] : booleans.map(shapeOf)),
      ...(literals.length === 0 ? [] : [literals.length === 1 ? { const: literals[0] } : { enum: literals }]),
    ];
    return parts.length === 1 ? parts[0]! : { anyOf: parts };
  };

  /** An optional property's type without its `undefined`, under the name it was written with. */
  const declared = (property: ts.Symbol): ts.Type => {
    const type = checker.getTypeOfSymbol(property);
    if (!(property.flags & ts.SymbolFlags.Optional)) return type;
    const node = property.valueDeclaration;
    const written = node && ts.isPropertySignature(node) && node.type ? checker.getTypeFromTypeNode(node.type) : type;
    return written.aliasSymbol ? written : checker.getNonNullableType(type);
  };

  const objectOf = (type: ts.Type): JsonSchema => {
    const properties = checker.getPropertiesOfType(type);
    return {
      type: "object",
      properties: Object.fromEntries(
        properties.map((one) => {
          const shape = schemaOf(declared(one));
          const known = definitions.get(String(shape.$ref).replace("#/$defs/", ""))?.description;
          return [one.name, { description: known ?? inWords(one.name), ...describe(one), ...shape }];
        }),
      ),
      required: properties.filter((one) => !(one.flags & ts.SymbolFlags.Optional)).map((one) => one.name),
      additionalProperties: false,
    };
  };

  const root = shapeOf(checker.getDeclaredTypeOfSymbol(symbol));
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    ...extra,
    ...describe(symbol),
    ...root,
    $defs: Object.fromEntries([...definitions].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

const UNITS: readonly (readonly [RegExp, string])[] = [
  [/_m3_s$/, "m³/s"],
  [/_m_s$/, "m/s"],
  [/_m3$/, "m³"],
  [/_m2$/, "m²"],
  [/_pa$/, "Pa"],
  [/_k$/, "K"],
  [/_rad$/, "rad"],
  [/_rpm$/, "rpm"],
  [/_kg$/, "kg"],
  [/_n$/, "N"],
  [/_w$/, "W"],
  [/_m$/, "m"],
];

/** Names too short to say what they hold. */
const SHORT: Readonly<Record<string, string>> = {
  n: "How many there are",
  of: "Out of how many",
  at: "The lift, by name or as a number in metres",
  to: "What it is compared with",
  z: "Mach index",
};

/** The description of a key without a comment: its name in words, its unit in brackets. */
function inWords(name: string): string {
  if (SHORT[name] !== undefined) return SHORT[name];
  const unit = UNITS.find(([suffix]) => suffix.test(name));
  const words = name.replace(unit?.[0] ?? /$^/, "").replaceAll("_", " ");
  return `${words[0]!.toUpperCase()}${words.slice(1)}${unit ? ` [${unit[1]}]` : ""}`;
}
