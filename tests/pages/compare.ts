/** Shades of grey, row by row. */
export type Grey = { readonly width: number; readonly height: number; readonly shades: Uint8Array };

/** How far two pictures of a page are apart, in shades of 256: over all, and in the block of 8 × 8 pixels that differs most. */
export type Apart = { readonly mean: number; readonly worst: number };

/**
 * What may differ before somebody has to look: PDFium draws the same bytes alike, so this is room for another version of it, not
 * for another page. A hair line 0.5 pt wide that vanishes changes its blocks by more than `worst`.
 */
export const THRESHOLD: Apart = { mean: 0.4, worst: 6 };

const SIDE = 8;

export function apart(one: Grey, other: Grey): Apart {
  if (one.width !== other.width || one.height !== other.height) return { mean: 255, worst: 255 };
  let [sum, worst] = [0, 0];
  for (let top = 0; top < one.height; top += SIDE)
    for (let left = 0; left < one.width; left += SIDE) {
      const [down, across] = [Math.min(SIDE, one.height - top), Math.min(SIDE, one.width - left)];
      let block = 0;
      for (let y = top; y < top + down; y++)
        for (let x = left; x < left + across; x++) {
          const at = y * one.width + x;
          block += Math.abs(one.shades[at]! - other.shades[at]!);
        }
      sum += block;
      worst = Math.max(worst, block / (down * across));
    }
  return { mean: sum / one.shades.length, worst };
}

export const alike = ({ mean, worst }: Apart): boolean => mean <= THRESHOLD.mean && worst <= THRESHOLD.worst;
