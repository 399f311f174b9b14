import { expect, test } from "vitest";
import { askedOnce } from "../../src/desk/shelf/asked-once.ts";
import { memoryWorld } from "../project/memory-world.ts";

const questions = ["stat /shop/shop.yaml", "realPath /shop/shop.yaml", "readFile 100 /shop/shop.yaml"];

test("what is asked alike is answered by one list, and the disk is asked once", () => {
  const asked: string[] = [];
  const world = memoryWorld({ "/shop/shop.yaml": "shop: { name: Bench }\n" });
  const stat = (path: string) => {
    asked.push(path);
    return world.stat(path);
  };
  const once = askedOnce({ ...world, stat });
  const first = once.answered(questions);
  expect(first.map(([question]) => question)).toEqual(questions);
  expect(once.answered([...questions])).toBe(first);
  expect(once.answered(questions.slice(0, 2))).toEqual(first.slice(0, 2));
  expect(once.answered(questions.toReversed())).toEqual(first.toReversed());
  expect(asked).toEqual(["/shop/shop.yaml"]);
});
