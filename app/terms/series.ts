// Closed sets of words for a supplier's series of one item.

/** What only people know of a series of lots, and the switching rules ask for. */
export const seriesNoteKinds = ['supplier-acted', 'reduced-wanted', 'reduced-ended'] as const
