// What inspection costs, and what is believed of the process before a lot is tested.
import type { BetaPrior } from '../bounds/posterior.ts'
import { between } from '../check.ts'

/** Money in one unit throughout (the service: whole cents), none below 0. */
export type Costs = {
  /** For each unit tested. */
  readonly test: number
  /** For each nonconforming unit left untested in an accepted lot. */
  readonly escape: number
  /** Once for each lot sent back; not used when rejected lots are screened. */
  readonly rejection: number
}

/** What follows a rejection: the rest is tested unit by unit and nothing escapes, or the lot goes back as it is. */
export type AfterRejection = 'screen' | 'return'

/** Refuses, by a RangeError that names it, a cost outside 0 to 1e200 and a prior outside 1e-300 to 1e15. */
export function checkEconomics({ costs, prior }: { costs: Costs; prior: BetaPrior }): void {
  between('costs.test', costs.test, 0, 1e200)
  between('costs.escape', costs.escape, 0, 1e200)
  between('costs.rejection', costs.rejection, 0, 1e200)
  between('prior.a', prior.a, 1e-300, 1e15)
  between('prior.b', prior.b, 1e-300, 1e15)
}

/** Mean of the prior. */
export function meanOf({ a, b }: BetaPrior): number {
  return a / (a + b)
}

/** Cost of a rejection after `tested` units of the lot; throws RangeError for a sequel that is neither. */
export function costOfRejection(
  tested: number,
  economicModel: { lotSize: number; costs: Costs; afterRejection: AfterRejection },
) {
  switch (economicModel.afterRejection) {
    case 'screen':
      return economicModel.costs.test * (economicModel.lotSize - tested)
    case 'return':
      return economicModel.costs.rejection
    default:
      throw new RangeError(
        `afterRejection must be screen or return, not ${economicModel.afterRejection satisfies never}`,
      )
  }
}
