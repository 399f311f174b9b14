import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT } from "../cli/run.ts";

/** Licences that ask for no more than their notice to be kept; OFL-1.1 is the font's. */
const PERMISSIVE = new Set(["MIT", "MIT-0", "ISC", "BSD-3-Clause", "Apache-2.0", "Unlicense", "OFL-1.1"]);

type Locked = { readonly dev?: boolean; readonly devOptional?: boolean };
type Manifest = {
  readonly name: string;
  readonly license?: string;
  readonly scripts?: Readonly<Record<string, string>>;
};
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");
const json = (path: string) => JSON.parse(read(path));
const { packages } = json("package-lock.json") as { readonly packages: Readonly<Record<string, Locked>> };

/** What a user installs beside the program: what the lock file does not keep for development. */
const installed = Object.entries(packages)
  .filter(([path, locked]) => path !== "" && !locked.dev && !locked.devOptional)
  .map(([path]) => json(join(path, "package.json")) as Manifest);

/** The notice of the packages in the bundle: name, version and licence, then the texts of each. */
const notices = read("dist/THIRD-PARTY.txt").split(/^-{72}$/m);
const bundled = notices.map((notice) => {
  const [, name, license] = /^(\S+) \d\S* \((.+)\)$/m.exec(notice) ?? [];
  return { name, license, words: notice.trim().split("\n").slice(1).join("\n") };
});

/** The words by which an MIT licence grants what it grants. */
const MIT_GRANT = /Permission is hereby granted, free of charge, to any person obtaining a copy/;

/** Words of a licence expression: `(MIT AND Zlib)` wants both, `MIT OR GPL-2.0` one. */
const isPermissive = (expression = "") =>
  expression
    .replace(/[()]/g, "")
    .split(" AND ")
    .every((part) => part.split(" OR ").some((name) => PERMISSIVE.has(name.trim())));

test("every package that is installed or bundled has a permissive licence", () => {
  expect(installed.map(({ name }) => name)).toEqual(["@hyzyla/pdfium", "nodemailer"]);
  expect(installed.filter(({ license }) => !isPermissive(license))).toEqual([]);
  expect(bundled.length).toBeGreaterThan(50);
  // One package says it in its text only.
  const strays = bundled.filter(({ license, words }) => !(isPermissive(license) || MIT_GRANT.test(words)));
  expect(strays.map(({ name, license }) => [name, license])).toEqual([]);
});

test("the notice holds a holder and a licence text for each package of the bundle", () => {
  const names = bundled.map(({ name }) => name);
  for (const name of ["commander", "fontkit", "jpeg-js", "vega", "zod", "@codemirror/view", "@swc/helpers"])
    expect(names).toContain(name);
  expect(bundled.filter(({ words }) => words.length < 500 || !/copyright/i.test(words))).toEqual([]);
  expect(notices.join()).toContain("SIL OPEN FONT LICENSE");
});

test("other licences are found", () => {
  for (const license of ["GPL-3.0", "MIT AND LGPL-2.1", "UNLICENSED", undefined])
    expect([license, isPermissive(license)]).toEqual([license, false]);
  expect(isPermissive("(GPL-2.0 OR MIT)")).toBe(true);
});

test("no installed package runs anything while it is installed", () => {
  const running = [...installed, json("package.json") as Manifest].filter(({ scripts }) =>
    ["preinstall", "install", "postinstall"].some((name) => scripts?.[name] !== undefined),
  );
  expect(running.map(({ name }) => name)).toEqual([]);
});
