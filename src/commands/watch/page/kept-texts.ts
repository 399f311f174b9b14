import type { JobText } from "../messages.ts";

/** Unsaved texts, kept in the browser until they are saved, for each tab its own. */
export type KeptTexts = {
  readonly keep: (path: string, unsaved: UnsavedText) => void;
  readonly forget: (path: string) => void;
  /** The text that this tab, or one that is closed, left unsaved. */
  readonly find: (path: string) => UnsavedText | undefined;
};

/** A text with the version of the file that it is based on. */
type UnsavedText = { readonly text: string; readonly base?: JobText };

const TAB = "headsheet tab";

export async function openKeptTexts(): Promise<KeptTexts> {
  const tab = await claimTab();
  const held = new Set(((await navigator.locks.query()).held ?? []).map(({ name }) => name));
  const folder = `headsheet ${location.pathname}`;
  const keyOf = (path: string, of = tab) => `${folder} ${of} ${path}`;
  /** Keys of this job's texts; this tab's own first. */
  const keysOf = (path: string): readonly string[] => {
    const left = Object.keys(localStorage).filter((key) => {
      const of = key.startsWith(`${folder} `) ? key.slice(folder.length + 1).split(" ")[0]! : "";
      return of !== "" && of !== tab && key === keyOf(path, of) && !held.has(`${TAB} ${of}`);
    });
    return [keyOf(path), ...left];
  };
  return {
    keep: (path, unsaved) => {
      try {
        localStorage.setItem(keyOf(path), JSON.stringify(unsaved));
      } catch {
        // No room: the browser still asks before the page is left.
      }
    },
    forget: (path) => localStorage.removeItem(keyOf(path)),
    find: (path) => {
      const key = keysOf(path).find((one) => localStorage.getItem(one) !== null);
      if (key === undefined) return undefined;
      const text = localStorage.getItem(key)!;
      localStorage.removeItem(key);
      localStorage.setItem(keyOf(path), text);
      return JSON.parse(text) as UnsavedText;
    },
  };
}

/** The name of this tab, locked while it is open: a tab that was duplicated takes another one than its original. */
async function claimTab(): Promise<string> {
  const known = sessionStorage.getItem(TAB);
  if (known && (await lock(known))) return known;
  const fresh = crypto.randomUUID();
  await lock(fresh);
  sessionStorage.setItem(TAB, fresh);
  return fresh;
}

const lock = (tab: string): Promise<boolean> =>
  new Promise((done) => {
    void navigator.locks.request(`${TAB} ${tab}`, { ifAvailable: true }, (granted) => {
      done(granted !== null);
      return granted ? new Promise(() => {}) : undefined;
    });
  });
