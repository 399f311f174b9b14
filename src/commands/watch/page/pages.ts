import type { SheetShown } from "../messages.ts";
import { make } from "./element.ts";

/** The pages of a sheet as pictures, one below the other. */
export type Pages = { readonly show: (sheet: SheetShown | undefined) => void };

/** Dots an inch that the program draws: the next above what the screen can show, so that pages are crisp. */
const DPIS = [72, 100, 150, 200, 300];

type Slot = { readonly box: HTMLElement; wanted: string; alt: string; shown: string; near: boolean; inches: number };

/** Keeps the boxes of pages that stay, so that nothing jumps: a picture takes the place of the one before once it is there. */
export function makePages(parent: HTMLElement): Pages {
  const slots: Slot[] = [];
  const load = async (slot: Slot) => {
    if (!slot.near || slot.wanted === "" || !(slot.box.clientWidth > 0)) return;
    const dots = (slot.box.clientWidth * devicePixelRatio) / slot.inches;
    const dpi = DPIS.find((one) => one >= dots * 0.98) ?? DPIS.at(-1)!;
    const source = `${slot.wanted}?dpi=${dpi}`;
    const image = slot.box.querySelector("img");
    if (image) image.alt = slot.alt;
    if (slot.shown === source) return;
    slot.shown = source;
    const fresh = make("img");
    fresh.alt = slot.alt;
    fresh.src = source;
    try {
      await fresh.decode();
    } catch {
      // The sheet was replaced on the way, or the program is gone: the next view asks again.
      if (slot.shown === source) slot.shown = "";
      return;
    }
    if (slot.shown === source) slot.box.replaceChildren(fresh);
  };
  const sight = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        const slot = slots.find(({ box }) => box === target);
        if (!slot) continue;
        slot.near = isIntersecting;
        void load(slot);
      }
    },
    { root: parent, rootMargin: "800px" },
  );
  new ResizeObserver(() => {
    for (const slot of slots) void load(slot);
  }).observe(parent);
  const none = make("p", { className: "none", text: "No sheet yet: the problems say why." });

  return {
    show: (sheet) => {
      const pages = sheet?.pages ?? [];
      none.remove();
      if (pages.length === 0) parent.append(none);
      for (const gone of slots.splice(pages.length)) {
        sight.unobserve(gone.box);
        gone.box.remove();
      }
      pages.forEach(({ width, height }, index) => {
        let slot = slots[index];
        if (!slot) {
          slot = { box: make("div", { className: "page" }), wanted: "", alt: "", shown: "", near: false, inches: 1 };
          slots.push(slot);
          parent.append(slot.box);
          sight.observe(slot.box);
        }
        slot.box.style.aspectRatio = `${width} / ${height}`;
        slot.inches = width / 72;
        slot.wanted = `sheets/${sheet!.id}/${index + 1}.png`;
        slot.alt = `${sheet!.title}, page ${index + 1} of ${pages.length}`;
        void load(slot);
      });
    },
  };
}
