// The officer's choice, while a lot is on its way, of the rule by which its plan freezes once it is counted.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { planRules } from '../../../db/schema/plan-rules.ts'
import { record } from '../../audit/record.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, lockLot, requireState, requireVersion } from '../record/lock.ts'
import { keepRule } from '../record/rule.ts'
import type { SaidReason } from '../rules/plan-reason.ts'
import type { PlanRule } from '../rules/plan-rule.ts'

/** Keeps the rule in place of any before; without one the plan is chosen once the lot is received. */
export async function chooseRule(
  db: Db,
  officer: Person,
  lotId: number,
  { version, rule }: { version: number; rule: (PlanRule & SaidReason) | undefined },
): Promise<void> {
  await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'choose-plan')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'choose-rule')
    requireVersion(lot, version)
    if (rule) await keepRule(tx, officer, lot, rule)
    else {
      await tx.delete(planRules).where(eq(planRules.lotId, lotId))
      await record(tx, officer, 'lot.rule-chosen', `lot/${lotId}`, { kind: 'none' })
    }
    // so that a receipt that was begun before is refused
    await changeLot(tx, lot, { state: lot.state })
  })
}
