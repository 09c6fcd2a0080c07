// Which lots stand in no series: the one place where they are left out of the switching rules.

/** What is asked of a lot. */
export type SeriesLot = {
  isolated: boolean
  size: number
  resubmissionOf: number | null
  replacementOf: number | null
}

/** Why a lot is left out. */
export type OutsideSeries = 'isolated' | 'one cord' | 'resubmitted' | 'replacement'

/**
 * Why the switching rules leave a lot out; undefined where they count it. A lot of one cord has no code letter: it is tested.
 * A lot that was marked as isolated belongs to no series. A lot that was rejected and comes again is no original inspection, which alone
 * the rules count (MIL-STD-105E, 4.7.1); what is sent in the place of a lot that went back is chosen by the supplier for that.
 */
export function outsideSeries({ isolated, size, resubmissionOf, replacementOf }: SeriesLot): OutsideSeries | undefined {
  if (resubmissionOf !== null) return 'resubmitted'
  if (replacementOf !== null) return 'replacement'
  if (isolated) return 'isolated'
  return size < 2 ? 'one cord' : undefined
}
