// The fewest units within which any plan at all can tell two qualities apart: where a search for one may begin.
import { exceeds } from '../check.ts'
import { leastInteger } from '../search.ts'

/** The tails of one quality: chances to find more than `found`, and at most `found`, in so many units. */
export type Tails = {
  moreThan(found: number, units: number): number
  atMost(found: number, units: number): number
}

/**
 * The fewest units, up to `most`, within which a plan of any kind may keep both risks; undefined where none does.
 *
 * No plan that decides within n units tells the two qualities apart better than the test of all n, even were that free
 * to decide its boundary count by lot (Neyman & Pearson 1933). So where that test fails, every plan does.
 */
export function fewestUnits(
  { producer, consumer }: { producer: { risk: number }; consumer: { risk: number } },
  most: number,
  { good, bad }: { good: Tails; bad: Tails },
): number | undefined {
  const possible = (units: number) => {
    const least = leastInteger(0, units, (found) => !exceeds(good.moreThan(found, units), producer.risk))
    return least === 0 || !exceeds(bad.atMost(least - 1, units), consumer.risk)
  }
  return possible(most) ? leastInteger(1, most, possible) : undefined
}
