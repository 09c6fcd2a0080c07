// The fewest units within which any plan at all can tell two qualities apart: where a search for one may begin.
import { exceeds } from '../check.ts'
import { leastInteger } from '../search.ts'
import type { ProcessRisk } from './plan.ts'

/** The law of one quality: chances to find just `found`, more than that, and at most that, in so many units. */
export type Counts = {
  density(found: number, units: number): number
  moreThan(found: number, units: number): number
  atMost(found: number, units: number): number
}

/** A search among plans of several stages: what they must keep, the units that they may have, and the laws of both qualities. */
export type StagedSearch<Law extends Counts> = {
  requirements: { producer: ProcessRisk; consumer: ProcessRisk }
  most: number
  good: Law
  bad: Law
}

/**
 * The fewest units, up to `most`, within which a plan of any kind may keep both risks; undefined where none does.
 *
 * No plan that decides within n units tells the two qualities apart better than the test of all n that rejects above a count, accepts
 * below it, and at the count draws lots so that the producer's risk is just used up (Neyman & Pearson 1933). So where
 * that test fails, every plan does; and as n rises it only becomes better.
 */
export function fewestUnits(
  { producer, consumer }: { producer: { risk: number }; consumer: { risk: number } },
  most: number,
  { good, bad }: { good: Counts; bad: Counts },
): number | undefined {
  const possible = (units: number) => {
    const c = leastInteger(0, units, (found) => !exceeds(good.moreThan(found, units), producer.risk))
    const rejecting = (producer.risk - good.moreThan(c, units)) / good.density(c, units)
    const accepting = 1 - Math.min(1, Math.max(0, rejecting))
    return !exceeds(bad.atMost(c - 1, units) + accepting * bad.density(c, units), consumer.risk)
  }
  return possible(most) ? leastInteger(1, most, possible) : undefined
}
