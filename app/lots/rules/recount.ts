// How many cords a recount after the draw may find.

/**
 * No more than the places that are not empty and than the recount before, and no fewer than were seen.
 *
 * @param known entries of all kinds, those of empty places, and the recount before
 * @example recountRange(480, { entries: 12, noCord: 1, recountedSize: 479 }) // 11 to 478
 */
export function recountRange(
  lotSize: number,
  { entries, noCord, recountedSize = lotSize }: { entries: number; noCord: number; recountedSize: number | undefined },
): { least: number; most: number } {
  return { least: Math.max(1, entries - noCord), most: Math.min(recountedSize, lotSize - noCord - 1) }
}
