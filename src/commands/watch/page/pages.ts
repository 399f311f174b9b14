import type { SheetInfo } from "../messages.ts";
import { createElement } from "./element.ts";

/** The pages of a sheet as images. */
export type Pages = {
  readonly show: (sheet: SheetInfo | undefined) => void;
  /** Takes away the pages of one job before another's are known. */
  readonly clear: () => void;
};

/** Resolutions that the server renders [dots an inch]; the next above the screen's is used. */
const DPIS = [72, 100, 150, 200, 300];

/** Delay before an image that could not be loaded is asked for again [ms]. */
const RETRY_DELAY = 1000;

type Slot = { readonly box: HTMLElement; wanted: string; alt: string; shown: string; near: boolean; inches: number };

/** Creates the pages. Boxes are reused over a refresh, so that the layout does not jump. */
export function createPages(parent: HTMLElement): Pages {
  const slots: Slot[] = [];
  const sight = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        const slot = slots.find(({ box }) => box === target);
        if (!slot) continue;
        slot.near = isIntersecting;
        void loadImage(slot);
      }
    },
    { root: parent, rootMargin: "800px" },
  );
  new ResizeObserver(() => {
    for (const slot of slots) void loadImage(slot);
  }).observe(parent);
  const none = createElement("p", { className: "none", text: "No sheet yet: the problems say why." });

  const removeFrom = (first: number) => {
    for (const gone of slots.splice(first)) {
      sight.unobserve(gone.box);
      gone.box.remove();
    }
  };
  return {
    clear: () => removeFrom(0),
    show: (sheet) => {
      const pages = sheet?.pages ?? [];
      none.remove();
      if (pages.length === 0) parent.append(none);
      removeFrom(pages.length);
      pages.forEach(({ width, height }, index) => {
        let slot = slots[index];
        if (!slot) {
          slot = {
            box: createElement("div", { className: "page" }),
            wanted: "",
            alt: "",
            shown: "",
            near: false,
            inches: 1,
          };
          slots.push(slot);
          parent.append(slot.box);
          sight.observe(slot.box);
        }
        slot.box.style.aspectRatio = `${width} / ${height}`;
        slot.inches = width / 72;
        slot.wanted = `sheets/${sheet!.id}/${index + 1}.png`;
        slot.alt = `${sheet!.title}, page ${index + 1} of ${pages.length}`;
        void loadImage(slot);
      });
    },
  };
}

/** Loads the image of a page that is near the visible area, and replaces the previous one when it is decoded. */
async function loadImage(slot: Slot): Promise<void> {
  if (!slot.near || slot.wanted === "" || !(slot.box.clientWidth > 0)) return;
  const dots = (slot.box.clientWidth * devicePixelRatio) / slot.inches;
  const dpi = DPIS.find((one) => one >= dots * 0.98) ?? DPIS.at(-1)!;
  const source = `${slot.wanted}?dpi=${dpi}`;
  const image = slot.box.querySelector("img");
  if (image) image.alt = slot.alt;
  if (slot.shown === source) return;
  slot.shown = source;
  const fresh = createElement("img");
  fresh.alt = slot.alt;
  fresh.src = source;
  try {
    await fresh.decode();
  } catch {
    // The sheet was replaced meanwhile, or the server does not respond.
    if (slot.shown !== source) return;
    slot.shown = "";
    setTimeout(() => void loadImage(slot), RETRY_DELAY);
    return;
  }
  if (slot.shown === source) slot.box.replaceChildren(fresh);
}
