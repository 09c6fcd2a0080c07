// What a plan does to a lot whose quality is known only as a prior: the chance of each verdict at each stage.

import type { BetaPrior } from '../bounds/posterior.ts'
import { between } from '../check.ts'
import * as betaBinomial from '../distributions/beta-binomial.ts'
import { type Outcome, outcomesUnder, type VerdictLaw } from '../plans/measures.ts'
import { checkStages, type Stages } from '../plans/plan.ts'

/**
 * Chances to reach each stage, and to be accepted or rejected there, for a lot whose process fraction is drawn from the prior.
 * Given what was found the rest follows the posterior, so every stage is beta-binomial.
 *
 * @throws RangeError that names the argument, or the stage that is not one
 * @example outcomesOfPrior({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, { a: 1, b: 9 })
 *   // one stage, accepted with chance 0.157895: 9 ÷ 57
 */
export function outcomesOfPrior(plan: Stages, { a, b }: BetaPrior): Outcome[] {
  checkStages(plan)
  between('prior.a', a, 1e-300, 1e15)
  between('prior.b', b, 1e-300, 1e15)

  return outcomesUnder(plan, lawOfPrior({ a, b }))
}

/** The law of the units still untested follows from the posterior. */
function lawOfPrior({ a, b }: BetaPrior): VerdictLaw {
  return {
    density: (found, sampleSize) => betaBinomial.density(found, { sampleSize, a, b }),
    atMost: (found, sampleSize) => betaBinomial.atMost(found, { sampleSize, a, b }),
    moreThan: (found, sampleSize) => betaBinomial.moreThan(found, { sampleSize, a, b }),
    after: (tested, found) => lawOfPrior({ a: a + found, b: b + (tested - found) }),
  }
}
