import type { LiveServer } from "../../../src/commands/watch/start-live.ts";

/** Posts JSON to a path of the live page and returns the answer. */
export async function postJson<T>({ address }: LiveServer, path: string, body: unknown): Promise<T> {
  const headers = { "Content-Type": "application/json" };
  return (await (
    await fetch(new URL(path, address), { method: "POST", headers, body: JSON.stringify(body) })
  ).json()) as T;
}

/** Reads events until one of that name comes that will do. */
export async function nextEvent<T>(
  name: string,
  from: Response,
  wanted: (data: T) => boolean = () => true,
): Promise<T> {
  const decoder = new TextDecoder();
  let text = "";
  for await (const part of from.body as unknown as AsyncIterable<Uint8Array>) {
    text += decoder.decode(part, { stream: true });
    for (const event of text.split("\n\n").slice(0, -1)) {
      const [first, data = ""] = event.split("\n");
      if (first === `event: ${name}` && wanted(JSON.parse(data.slice("data: ".length))))
        return JSON.parse(data.slice(6));
    }
  }
  throw new Error(`the stream ended without ${name}`);
}
