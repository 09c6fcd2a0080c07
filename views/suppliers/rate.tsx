// How a share with its interval, and where a prior is from, are said of suppliers side by side.
import type { Rates } from '../../app/history/rates.ts'
import { percent, percentAtLeast, percentAtMost, whole } from '../figures.ts'

/** A share with its interval below it. */
export function ShareBetween({ share, lower, upper }: { share: number; lower: number; upper: number }) {
  return (
    <span class="between">
      {percent(share)}
      <small>
        {percentAtLeast(lower)} to {percentAtMost(upper)}
      </small>
    </span>
  )
}

/** Where the prior is from, in the middle of a sentence. */
export function priorWords({ priorFrom, suppliers }: { priorFrom: Rates['priorFrom']; suppliers: number }): string {
  return priorFrom === 'suppliers'
    ? `the ${whole(suppliers)} suppliers together`
    : 'a stated guess worth two cords (surveys of the open market, by interested parties)'
}
