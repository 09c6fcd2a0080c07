// The count at the dock: from then on it is the lot's size, and where the officer chose a rule, its plan freezes with it.

import { eq, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { planRules } from '../../../db/schema/plan-rules.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { changeLot, type LockedLot, lockLot, requireState, requireVersion } from '../record/lock.ts'
import { itemRowOf, type RuleRow, ruleRowOf } from '../record/rule.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { checkPacking, type Packing } from '../rules/packing.ts'
import { outcomeOfRule, type RuleOutcome, shownAs } from './rule-outcome.ts'
import { writePlan } from './write-plan.ts'

type Receipt = Packing & {
  version: number
  note: string
  /** every carton carries the announced production mark */
  oneMark?: boolean
  /** what the check page showed, where the lot has a rule: nothing else is carried out */
  shown?: string | undefined
}

/**
 * Takes the lot in as it was counted. A count that differs from the announced one stands beside it; it may be repeated
 * until the plan is frozen, and every count stays in the audit. The plan of a lot with a rule freezes in the same transaction, chosen by the
 * officer and confirmed by the inspector, or waits for the officer; in no other way does an inspector freeze a plan.
 */
export async function receiveLot(
  db: Db,
  inspector: Person,
  lotId: number,
  { version, note, oneMark = false, shown, ...counted }: Receipt,
): Promise<void> {
  checkPacking(counted)
  const receiptNote = note.trim()
  if (receiptNote.length > lengths.reason) throw new Refusal('invalid', 'lot/note-length', {}, 'note')
  await db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'receive-lot')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'receive')
    requireVersion(lot, version)
    const { size, cartons, cordsInCarton } = counted
    const rule = await ruleRowOf(tx, lotId)
    const outcome = rule && (await outcomeOfRule(tx, lot, rule, { size, oneMark }))
    if (outcome && shownAs(outcome) !== shown) throw new Refusal('conflict', 'receipt/shown-otherwise', { lot: lotId })
    await changeLot(tx, lot, {
      size,
      cartons,
      cordsInCarton,
      receiptNote,
      receivedBy: inspector.id,
      receivedAt: sql`clock_timestamp()`,
      state: stateAfter('receive', lot.state),
    })
    await record(tx, inspector, 'lot.received', `lot/${lotId}`, {
      size,
      cartons,
      cordsInCarton,
      announced: lot.announcedSize,
      note: receiptNote,
      before: lot.size ?? undefined,
      oneMark: rule && oneMark,
      waits: outcome?.kind === 'waits' ? outcome.because : undefined,
    })
    if (outcome) await carryOut(tx, inspector, { ...lot, size }, { rule, outcome })
  })
}

async function carryOut(
  tx: Tx,
  inspector: Person,
  lot: LockedLot & { size: number },
  { rule, outcome }: { rule: RuleRow; outcome: RuleOutcome },
): Promise<void> {
  const waits = outcome.kind === 'waits' ? outcome.because : null
  if (waits !== rule.waits) await tx.update(planRules).set({ waits }).where(eq(planRules.lotId, lot.id))
  if (outcome.kind === 'waits') return
  const item = await itemRowOf(tx, lot.itemId)
  const because = { reason: rule.reason ?? undefined, byClause: rule.byClause }
  const choice = { chosen: outcome.plan, because, chosenBy: rule.chosenBy }
  await writePlan(tx, inspector, { lot, item }, choice)
}
