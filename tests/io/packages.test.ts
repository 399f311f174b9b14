import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT } from "../cli/run.ts";

/** Licences that ask for no more than their notice to be kept; OFL-1.1 is the font's. */
const PERMISSIVE = new Set(["MIT", "MIT-0", "ISC", "BSD-3-Clause", "Apache-2.0", "Unlicense", "OFL-1.1"]);

type Locked = { readonly dev?: boolean; readonly devOptional?: boolean; readonly optional?: boolean };
type Manifest = {
  readonly name: string;
  readonly license?: unknown;
  readonly licenses?: readonly { readonly type: string }[];
  readonly scripts?: Readonly<Record<string, string>>;
};
const json = (path: string) => JSON.parse(readFileSync(join(ROOT, path), "utf8"));
const { packages } = json("package-lock.json") as { readonly packages: Readonly<Record<string, Locked>> };

/** Everything a user installs: what the lock file does not keep for development. */
const installed = Object.entries(packages)
  .filter(([path, locked]) => path !== "" && !locked.dev && !locked.devOptional)
  .map(([path]) => ({ path, manifest: json(join(path, "package.json")) as Manifest }));

/** The words by which an MIT licence grants what it grants. */
const MIT_GRANT = /Permission is hereby granted, free of charge, to any person obtaining a copy/;
/** Some say it in a file only. */
const inFile = (path: string) =>
  MIT_GRANT.test(readFileSync(join(ROOT, path, "LICENSE"), "utf8")) ? { license: "MIT" } : {};

/** Words of a licence expression: `(MIT AND Zlib)` wants both, `MIT OR GPL-2.0` one. */
function isPermissive({ license, licenses }: Manifest): boolean {
  const expression = typeof license === "string" ? license : (licenses ?? []).map((one) => one.type).join(" OR ");
  const every = expression.replace(/[()]/g, "").split(" AND ");
  return every.every((part) => part.split(" OR ").some((name) => PERMISSIVE.has(name.trim())));
}

test("every installed package has a permissive licence", () => {
  expect(installed.length).toBeGreaterThan(50);
  const strays = installed.filter(
    ({ path, manifest }) => !isPermissive(manifest.license ? manifest : { ...manifest, ...inFile(path) }),
  );
  expect(strays.map(({ manifest }) => `${manifest.name}: ${JSON.stringify(manifest.license)}`)).toEqual([]);
});

test("other licences are found", () => {
  for (const license of ["GPL-3.0", "MIT AND LGPL-2.1", "UNLICENSED", undefined])
    expect([license, isPermissive({ name: "x", license })]).toEqual([license, false]);
  expect(isPermissive({ name: "x", license: "(GPL-2.0 OR MIT)" })).toBe(true);
});

test("no installed package runs anything while it is installed", () => {
  const running = installed.filter(({ manifest }) =>
    ["preinstall", "install", "postinstall"].some((name) => manifest.scripts?.[name] !== undefined),
  );
  expect(running.map(({ manifest }) => manifest.name)).toEqual([]);
});

test("count and size are what the README may say", () => {
  const bytes = (path: string): number =>
    readdirSync(join(ROOT, path), { withFileTypes: true }).reduce((sum, entry) => {
      if (entry.name === "node_modules") return sum;
      const inner = join(path, entry.name);
      return sum + (entry.isDirectory() ? bytes(inner) : entry.isFile() ? statSync(join(ROOT, inner)).size : 0);
    }, 0);
  const sizes = installed.map(({ path }) => bytes(path));
  const all = sizes.reduce((sum, one) => sum + one, 0);
  // A pin: the README says the same, with a reason for each package that is asked for by name.
  expect({ packages: sizes.length, megabytes: Math.round(all / 1e6) }).toEqual({ packages: 92, megabytes: 59 });
});
