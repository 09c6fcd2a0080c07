// Which lots stand in no series: the one place where they are left out of the switching rules.

/** What is asked of a lot. */
export type SeriesLot = { isolated: boolean; size: number }

/**
 * Why the switching rules leave a lot out; undefined where they count it. A lot of one cord has no code letter: it is tested.
 * A lot that was marked as isolated belongs to no series.
 */
export function outsideSeries({ isolated, size }: SeriesLot): 'isolated' | 'one cord' | undefined {
  if (isolated) return 'isolated'
  return size < 2 ? 'one cord' : undefined
}
