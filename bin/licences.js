// The licences of bundled packages, which ask to travel with every copy.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const read = (...path) => readFileSync(join(root, ...path), "utf8").trim();
/** The words of the MIT licence after its copyright line. */
const MIT = /Permission is hereby granted[\s\S]*/.exec(read("LICENSE"))[0];

/** The words of the ISC licence after its copyright line. */
const ISC = `Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted,
provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED
WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR
CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT,
NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.`;
/** Texts for packages that state their licence and come without its file. */
const WORDS = { MIT, ISC };

/** Folders of the packages that a bundle took files from. */
export const packagesOf = ({ inputs }) =>
  Object.keys(inputs).flatMap((path) => /^node_modules\/(?:.*\/node_modules\/)?(?:@[^/]+\/)?[^/]+/.exec(path) ?? []);

/** The name, version and licence texts of each package, in the order of their names. */
export function licenceTexts(folders) {
  const texts = [...new Set(folders)].toSorted().map((folder) => {
    const { name, version, license, author } = JSON.parse(read(folder, "package.json"));
    const files = readdirSync(join(root, folder)).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
    if (files.length === 0 && !(license in WORDS)) throw new Error(`${folder} comes without a licence text`);
    const holder = (typeof author === "string" ? author : author?.name) ?? `the authors of ${name}`;
    const words =
      files.length > 0 ? files.map((file) => read(folder, file)) : [`Copyright (c) ${holder}\n\n${WORDS[license]}`];
    return `${[`${name} ${version} (${license ?? "see below"})`, ...words].join("\n\n")}\n`;
  });
  return texts.join(`\n${"-".repeat(72)}\n\n`);
}
