import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { lastingAddress, newToken } from "../../../src/commands/watch/lasting-address.ts";
import { stateFolder } from "../../../src/io/private-file.ts";
import { scratch } from "../../cli/run.ts";

const folder = scratch();
const address = { port: 40_000, token: newToken() };

test("an address is kept for the same jobs of the same folder, for this user only", () => {
  expect(lastingAddress(["jobs"], "/shop", folder).last).toBeUndefined();
  lastingAddress(["jobs"], "/shop", folder).keep(address);
  expect(lastingAddress(["jobs"], "/shop", folder).last).toEqual(address);
  expect(lastingAddress(["jobs"], "/other", folder).last).toBeUndefined();
  expect(lastingAddress(["jobs/1.yaml"], "/shop", folder).last).toBeUndefined();
  const [name] = readdirSync(join(folder, "watch"));
  expect(statSync(join(folder, "watch", name!)).mode & 0o777).toBe(0o600);
});

test("one that others may read, or that is not one, is not used", () => {
  const [name] = readdirSync(join(folder, "watch"));
  const path = join(folder, "watch", name!);
  const text = readFileSync(path, "utf8");
  chmodSync(path, 0o644);
  expect(lastingAddress(["jobs"], "/shop", folder).last).toBeUndefined();
  chmodSync(path, 0o600);
  expect(lastingAddress(["jobs"], "/shop", folder).last).toEqual(address);
  writeFileSync(path, text.replace(address.token, "short"));
  expect(lastingAddress(["jobs"], "/shop", folder).last).toBeUndefined();
});

test("the folder follows the conventions of the system", () => {
  expect(stateFolder({ env: { XDG_STATE_HOME: "/state" }, platform: "linux" })).toBe("/state/headsheet");
  expect(stateFolder({ env: { XDG_STATE_HOME: "relative" }, platform: "linux" })).toMatch(/\.local.state.headsheet$/);
  expect(stateFolder({ env: {}, platform: "darwin" })).toMatch(/Application Support.headsheet$/);
  expect(stateFolder({ env: { LOCALAPPDATA: "C:\\Local" }, platform: "win32" })).toMatch(/Local.headsheet$/);
});
