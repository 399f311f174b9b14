import { expect, test } from "vitest";
import { findTemplate } from "../../src/project/find-template.ts";
import { memoryWorld } from "./memory-world.ts";

const template = (name: string) => `template: ${name}\nrows: [ masthead ]\n`;
const world = memoryWorld({
  "/tool/templates/handover.yaml": template("handover"),
  "/tool/templates/catalogue.yaml": template("catalogue"),
  "/shop/templates/handover.yaml": template("ours"),
  "/shop/secret.yaml": template("secret"),
});
const find = (name: string, root = "/shop") =>
  findTemplate(name, { root, builtIn: "/tool/templates" }, ["masthead"], world);

test("the shop's own wins over the built-in one", () => expect(find("handover").template?.name).toBe("ours"));
test("the built-in one serves where the shop has none", () => {
  expect(find("catalogue").template?.name).toBe("catalogue");
  expect(find("handover", "/elsewhere").template?.name).toBe("handover");
});
test("a name that is none suggests the nearest", () => {
  expect(find("handovr").diagnostics).toEqual([
    {
      severity: "error",
      code: "project/template-missing",
      message: "there is no template `handovr`",
      hint: "did you mean `handover`?",
    },
  ]);
});
test.each(["../secret", "/shop/secret", "..", "a/b"])("a name is not a path: %s", (name) => {
  expect(find(name).diagnostics.map((each) => each.code)).toEqual(["project/template-missing"]);
});
