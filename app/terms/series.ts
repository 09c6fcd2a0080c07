// Closed sets of words for a supplier's series of one item.

/** What only people know of a series of lots, and the switching rules ask for. */
export const seriesNoteKinds = ['supplier-acted', 'reduced-wanted', 'reduced-ended'] as const

/** How strictly the lots of a series are inspected under the published standard. */
export const severities = ['normal', 'tightened', 'reduced'] as const

/** How a figure of the standard's tables became known to the project; anything but read is to be checked against a copy. */
export const tableStandings = ['read', 'derived', 'recalled'] as const
