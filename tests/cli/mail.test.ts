import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import PostalMime from "postal-mime";
import { expect, test } from "vitest";
import { serializeDraft } from "../../src/commands/mail/mail-draft.ts";
import { inProcess, scratch } from "./run.ts";

const folder = scratch();
let count = 0;

/** A desk with a shop and one starter job, with words of its own in place of some. */
async function desk(
  change: (text: string) => string = (text) => text,
  shop = "shop: { name: Quay Heads, email: a@quay.example }\n",
) {
  const cwd = join(folder, `${count++}`);
  mkdirSync(cwd);
  writeFileSync(join(cwd, "shop.yaml"), shop);
  await inProcess(["new", "a.yaml"], cwd);
  const job = join(cwd, "a.yaml");
  writeFileSync(job, change(readFileSync(job, "utf8")).replace(/^draft: true.*\n/m, ""));
  const { code, out, err } = await inProcess(["mail", "a.yaml"], cwd);
  const file = join(cwd, out.trim());
  return { cwd, code, out, err, ...(code === 0 ? { raw: readFileSync(file) } : {}) };
}
const withMail = (address: string) => (text: string) =>
  text.replace("name: Name of the customer", `name: "Ö. Nordahl", email: ${JSON.stringify(address)}`);

// PostalMime is a reader of its own of RFC 5322 and MIME.
test("the draft is unsent, to the customer, from the shop, with the sheet inside and at most four plain lines", async () => {
  const { cwd, code, out, raw } = await desk(withMail("nordahl@fjord.example"));
  expect(code).toBe(0);
  expect(out).toBe("out/a_rev1_mail_what-you-call-this-head_2026-03-14.eml\n");
  const mail = await PostalMime.parse(raw!);
  expect(mail.from).toEqual({ name: "Quay Heads", address: "a@quay.example" });
  expect(mail.to).toEqual([{ name: "Ö. Nordahl", address: "nordahl@fjord.example" }]);
  expect(mail.headers.find(({ key }) => key === "x-unsent")?.value).toBe("1");
  expect(mail.date).toBe("2026-03-14T12:00:00.000Z");
  expect(mail.html).toBeUndefined();
  const lines = mail.text!.trim().split(/\r?\n/);
  expect(lines.length).toBeLessThanOrEqual(6);
  expect(lines.slice(0, 2)).toEqual(["Dear Ö. Nordahl,", ""]);
  expect(lines[2]).toMatch(/^The sheet of your head is attached: /);
  expect(lines.at(-1)).toBe("Quay Heads");
  expect(mail.attachments).toHaveLength(1);
  const [sheet] = mail.attachments;
  expect(sheet).toMatchObject({
    filename: "a_rev1_handover_what-you-call-this-head_2026-03-14.pdf",
    mimeType: "application/pdf",
  });
  const inside = Buffer.from(sheet?.content as ArrayBuffer).toString("latin1");
  const [, figures, mark] = /<dc:identifier>a revision 1 figures (\d+) mark ([a-z]{12})</.exec(inside)!;
  expect(readFileSync(join(cwd, "issued.csv"), "utf8").split("\n")[1]).toBe(
    `2026-03-14,a,1,mail,a_rev1_mail_what-you-call-this-head_2026-03-14.eml,${mark},${figures}`,
  );
});

test("each line of the file ends as RFC 5322 wants, none is longer than it allows, and headers are ASCII", async () => {
  const { raw } = await desk(withMail("nordahl@fjord.example"));
  const text = raw!.toString("latin1");
  expect(/[^\r]\n|\r[^\n]/.test(text)).toBe(false);
  expect(Math.max(...text.split("\r\n").map((line) => line.length))).toBeLessThanOrEqual(998);
  expect(/[^\r\n\t -~]/.test(text.slice(0, text.indexOf("\r\n\r\n")))).toBe(false);
});

test("the same job gives the same bytes", async () => {
  const [a, b] = [await desk(), await desk()];
  expect(a.raw!.equals(b.raw!)).toBe(true);
});

test("no name or head can add a header or a receiver", async () => {
  const hostile = 'x\r\nBcc: all@evil.example\r\n\r\nhello, "<b@evil.example>" b@evil.example;';
  const raw = await serializeDraft({
    from: { name: hostile, address: "a@quay.example" },
    to: { name: hostile, address: "c@fjord.example" },
    subject: hostile,
    lines: [hostile, "--_NmP-boundary", "."],
    issued: "2026-03-14",
    mark: "0f1e2d3c",
    attachment: { name: "a.pdf", pdf: new Uint8Array([1, 2, 3]) },
  });
  const mail = await PostalMime.parse(raw);
  expect(mail.bcc ?? []).toEqual([]);
  expect(mail.cc ?? []).toEqual([]);
  expect(mail.to?.map(({ address }) => address)).toEqual(["c@fjord.example"]);
  expect(mail.from?.address).toBe("a@quay.example");
  expect(mail.subject).toBe(hostile.replace(/\s+/g, " ").trim());
  expect(mail.headers.map(({ key }) => key).sort()).toEqual(
    ["content-type", "date", "from", "message-id", "mime-version", "subject", "to", "x-unsent"].sort(),
  );
  expect(mail.attachments.map(({ filename }) => filename)).toEqual(["a.pdf"]);
});

test.each(["a@b.example, c@d.example", "a@b.example c", "<a@b.example>", "nobody", "a@b@c", 'a"@b', "a@b;c"])(
  "`%s` is no address, and nothing is written",
  async (address) => {
    const { cwd, code, err } = await desk(withMail(address));
    expect(code).toBe(1);
    expect(err).toContain("error[mail/address]");
    expect(err).toMatch(/a\.yaml:\d+:\d+/);
    expect(readdirSync(cwd)).not.toContain("out");
  },
);

test("without an address of the customer the draft is made and says so; without the shop's it is not", async () => {
  const open = await desk();
  expect([open.code, open.err]).toEqual([0, expect.stringContaining("warning[mail/no-address]")]);
  expect((await PostalMime.parse(open.raw!)).to ?? []).toEqual([]);
  const nameless = await desk((text) => text, "shop: { name: Quay Heads }\n");
  expect([nameless.code, nameless.err]).toEqual([1, expect.stringContaining("error[mail/no-sender]")]);
  expect(nameless.err).toContain("--> shop.yaml:1:");
});

test("an address of the shop that is none is said where it stands", async () => {
  const { code, err } = await desk((text) => text, "shop: { name: Quay Heads, email: nobody }\n");
  expect([code, err]).toEqual([1, expect.stringMatching(/error\[mail\/address\].*\n *--> shop\.yaml:1:34\n/)]);
});

test("what would contradict an issued sheet is not mailed", async () => {
  const { cwd } = await desk();
  await inProcess(["make", "a.yaml"], cwd);
  writeFileSync(join(cwd, "a.yaml"), readFileSync(join(cwd, "a.yaml"), "utf8").replace("158.1", "159.1"));
  const { code, err } = await inProcess(["mail", "a.yaml"], cwd);
  expect([code, err]).toEqual([1, expect.stringContaining("error[make/issued]")]);
});
