// What a plan does to a lot whose quality is known only as a prior: the chance of each verdict at each stage.
import { between } from '../check.ts'
import * as betaBinomial from '../distributions/beta-binomial.ts'
import type { Outcome } from '../plans/measures.ts'
import { undecidedBefore } from '../plans/passage.ts'
import { checkStages, type Stages } from '../plans/plan.ts'
import type { Prior } from './costs.ts'

/**
 * Chances to reach each stage, and to be accepted or rejected there, for a lot whose process fraction is drawn from the prior.
 * Given what was found the rest follows the posterior, so every stage is beta-binomial.
 *
 * @throws RangeError that names the argument, or the stage that is not one
 * @example outcomesOfPrior({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] }, { a: 1, b: 9 })
 *   // one stage, accepted with chance 9 ÷ 57
 */
export function outcomesOfPrior(plan: Stages, { a, b }: Prior): Outcome[] {
  checkStages(plan)
  between('prior.a', a, 1e-300, 1e15)
  between('prior.b', b, 1e-300, 1e15)

  const passages = undecidedBefore(plan)
  return plan.stages.map(({ sampleSize, acceptanceNumber, rejectionNumber }, index) => {
    const { tested, from, share } = passages[index]!
    const more = sampleSize - tested
    const outcome = { sampleSize, reached: 0, accepted: 0, rejected: 0 }
    for (const [i, part] of share.entries()) {
      const found = from + i
      const reached = part * betaBinomial.density(found, { sampleSize: tested, a, b })
      const rest = { sampleSize: more, a: a + found, b: b + (tested - found) }
      outcome.reached += reached
      outcome.accepted += reached * betaBinomial.atMost(acceptanceNumber - found, rest)
      outcome.rejected += reached * betaBinomial.moreThan(rejectionNumber - 1 - found, rest)
    }
    return outcome
  })
}
