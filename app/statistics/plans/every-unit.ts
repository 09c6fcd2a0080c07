// The two plans that leave nothing to a sample: test every unit, or none.
import { count } from '../check.ts'
import type { Plan } from './plan.ts'
import { singlePlan } from './single.ts'

/** Every unit is tested: the conforming ones are kept, however many the others are; throws RangeError below 1 unit. */
export function everyUnit(lotSize: number): Plan {
  count('lotSize', lotSize, 1)

  return { ...singlePlan({ sampleSize: lotSize, acceptanceNumber: lotSize }), kind: 'every-unit' }
}

/** No unit is tested and every lot accepted. */
export function noTest(): Plan {
  return { kind: 'no-test', stages: [] }
}
