// The officer's choice of a plan, frozen with the item's terms before any cord is opened.

import type { Db } from '../../../db/client.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { lockLot, requireState, requireVersion } from '../record/lock.ts'
import { itemRowOf } from '../record/rule.ts'
import type { SaidReason } from '../rules/plan-reason.ts'
import { type ChosenPlan, writePlan } from './write-plan.ts'

/**
 * Freezes the plan of a received lot together with the terms of its item. Neither is changed afterwards, so nobody can
 * move the acceptance number, the limit or the policy for marginal cords once results are seen. A plan that lets more lots with too many
 * through than the item demands needs a reason, which stays with it; a stronger one keeps none.
 */
export async function freezePlan(
  db: Db,
  officer: Person,
  lotId: number,
  { version, reason, byClause, ...chosen }: ChosenPlan & SaidReason & { version: number },
): Promise<void> {
  await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'freeze-plan')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'plan')
    requireVersion(lot, version)
    const { size } = lot
    if (size === null) throw new Error(`lot ${lotId} is received and has no size`)
    const item = await itemRowOf(tx, lot.itemId)
    await writePlan(
      tx,
      officer,
      { lot: { ...lot, size }, item },
      { chosen, because: { reason, byClause }, chosenBy: undefined },
    )
  })
}
