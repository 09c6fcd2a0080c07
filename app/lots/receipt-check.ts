// What a receipt would do with the plan of a lot that has a rule, before it is carried out.
import type { Db } from '../../db/client.ts'
import { requireStanding } from '../people/standing.ts'
import type { Person } from '../terms/person.ts'
import { outcomeOfRule, type RuleOutcome, shownAs } from './acts/rule-outcome.ts'
import { lockLot, requireState, requireVersion } from './record/lock.ts'
import { ruleRowOf } from './record/rule.ts'
import { checkPacking, type Packing } from './rules/packing.ts'

/** `shown`: what the second press sends back */
export type ReceiptCheck = { outcome: RuleOutcome; shown: string }

/** Undefined where the lot has no rule. Throws Refusal as the receipt itself would. */
export async function receiptCheck(
  db: Db,
  inspector: Person,
  lotId: number,
  { version, oneMark, ...counted }: Packing & { version: number; oneMark: boolean },
): Promise<ReceiptCheck | undefined> {
  checkPacking(counted)
  return db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'receive-lot')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'receive')
    requireVersion(lot, version)
    const row = await ruleRowOf(tx, lotId)
    if (!row) return undefined
    const outcome = await outcomeOfRule(tx, lot, row, { size: counted.size, oneMark })
    return { outcome, shown: shownAs(outcome) }
  })
}
