import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";

export type Squiggle = { readonly line: number; readonly message: string };

/** The YAML language server that editors run, as its own process. */
export type LanguageServer = {
  /** What it underlines in the text of a file; the first line names the schema. */
  readonly squiggles: (path: string, text?: string) => Promise<readonly Squiggle[]>;
  /** The labels that it offers at `|` in a text. */
  readonly offers: (text: string) => Promise<readonly string[]>;
  readonly close: () => void;
};

type Message = {
  readonly id?: number;
  readonly method?: string;
  readonly params?: {
    readonly uri?: string;
    readonly items?: readonly unknown[];
    readonly diagnostics?: readonly Diagnostic[];
  };
  readonly result?: { readonly items?: readonly { readonly label: string }[] };
};
type Diagnostic = { readonly range: { readonly start: { readonly line: number } }; readonly message: string };

const SERVER = join(
  dirname(createRequire(import.meta.url).resolve("yaml-language-server/package.json")),
  "bin",
  "yaml-language-server",
);

export async function startLanguageServer(): Promise<LanguageServer> {
  const { send, request, onDiagnostics, close } = connect();
  await request("initialize", { processId: process.pid, rootUri: null, capabilities: {} });
  send({ method: "initialized", params: {} });
  let count = 0;
  const open = (uri: string, text: string) =>
    send({ method: "textDocument/didOpen", params: { textDocument: { uri, languageId: "yaml", version: 1, text } } });
  return {
    squiggles: async (path, text = readFileSync(path, "utf8")) => {
      const { href } = pathToFileURL(path);
      const found = onDiagnostics(href);
      open(href, text);
      return (await found).map(({ range, message }) => ({ line: range.start.line + 1, message }));
    },
    offers: async (text) => {
      const [before] = text.split("|") as [string];
      const uri = `file:///tmp/offers-${count++}.yaml`;
      const lines = before.split("\n");
      open(uri, text.replace("|", ""));
      const position = { line: lines.length - 1, character: lines.at(-1)!.length };
      const { result } = await request("textDocument/completion", { textDocument: { uri }, position });
      return (result?.items ?? []).map(({ label }) => label);
    },
    close,
  };
}

/** The protocol of language servers: JSON after a header with its length (base protocol of LSP 3.17). */
function connect() {
  const { stdin, stdout, kill } = startServer();
  const answers = new Map<number, (message: Message) => void>();
  const diagnosed = new Map<string, (found: readonly Diagnostic[]) => void>();
  const send = (message: object) => {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const take = ({ id, method, params, result }: Message) => {
    if (method === undefined) answers.get(id!)?.({ result } as Message);
    else if (id !== undefined) send({ id, result: params?.items?.map(() => ({})) ?? null });
    else if (method === "textDocument/publishDiagnostics") diagnosed.get(params!.uri!)?.(params!.diagnostics!);
  };
  let waiting = Buffer.alloc(0);
  stdout.on("data", (part: Buffer) => {
    waiting = Buffer.concat([waiting, part]);
    for (;;) {
      const header = /^Content-Length: (\d+)\r\n\r\n/.exec(waiting.toString("latin1", 0, 64));
      const end = header ? header[0].length + Number(header[1]) : Number.POSITIVE_INFINITY;
      if (waiting.length < end) return;
      take(JSON.parse(waiting.toString("utf8", header![0].length, end)) as Message);
      waiting = waiting.subarray(end);
    }
  });
  let last = 0;
  return {
    send,
    request: (method: string, params: object) =>
      new Promise<Message>((done) => {
        answers.set(++last, done);
        send({ id: last, method, params });
      }),
    onDiagnostics: (uri: string) => new Promise<readonly Diagnostic[]>((done) => diagnosed.set(uri, done)),
    close: () => kill(),
  };
}

function startServer() {
  const child = spawn(process.execPath, [SERVER, "--stdio"], { stdio: ["pipe", "pipe", "ignore"] });
  return { stdin: child.stdin!, stdout: child.stdout!, kill: () => child.kill() };
}
