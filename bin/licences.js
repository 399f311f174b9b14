// The licences of bundled packages, which ask to travel with every copy.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const read = (...path) => readFileSync(join(root, ...path), "utf8").trim();
/** The words of the MIT licence after its copyright line. */
const MIT = /Permission is hereby granted[\s\S]*/.exec(read("LICENSE"))[0];

/** Folders of the packages that a bundle took files from. */
export const packagesOf = ({ inputs }) =>
  Object.keys(inputs).flatMap((path) => /^node_modules\/(?:.*\/node_modules\/)?(?:@[^/]+\/)?[^/]+/.exec(path) ?? []);

/** The name, version and licence texts of each package, in the order of their names. */
export function licenceTexts(folders) {
  const texts = [...new Set(folders)].toSorted().map((folder) => {
    const { name, version, license, author } = JSON.parse(read(folder, "package.json"));
    const files = readdirSync(join(root, folder)).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
    if (files.length === 0 && license !== "MIT") throw new Error(`${folder} comes without a licence text`);
    const holder = (typeof author === "string" ? author : author?.name) ?? `the authors of ${name}`;
    const words = files.length > 0 ? files.map((file) => read(folder, file)) : [`Copyright (c) ${holder}\n\n${MIT}`];
    return `${[`${name} ${version} (${license ?? "see below"})`, ...words].join("\n\n")}\n`;
  });
  return texts.join(`\n${"-".repeat(72)}\n\n`);
}
