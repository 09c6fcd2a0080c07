// One lot with everything that its page tells.

import { eq, getTableColumns } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { draws } from '../../../db/schema/results.ts'
import { type AuditLine, auditOf, clockBehindOf } from '../../audit/list.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotState, Verdict } from '../../terms/lot.ts'
import { type Proof, proofAfter } from '../rules/bounds.ts'
import { type Turn, turnOf } from '../rules/next-step.ts'
import { type Prediction, predictionOf } from '../rules/prediction.ts'
import { type Reached, reachedBy } from '../rules/progress.ts'
import { type Balance, balanceOf } from './balance.ts'
import { type Condition, conditionOf, rejectedSince } from './integrity.ts'
import {
  type Announcement,
  announcementOf,
  type DecisionFacts,
  type DrawFacts,
  decisionOf,
  drawOf,
  type LotTerms,
  namesOf,
  type PlanFacts,
  planOf,
  type Receipt,
  receiptOf,
  termsOf,
  type Withdrawal,
  withdrawalOf,
} from './steps.ts'
import { stageCountsOf, tallyOf } from './tally.ts'

export type Progress = {
  /** cords that count towards the plan's sample */
  sampleRecorded: number
  sampleNonconforming: number
  /** the other cords, while a lot is screened and afterwards */
  restRecorded: number
  restNonconforming: number
  /** cords not yet recorded, of the running stage of the sample or of the whole lot while it is screened */
  toDo: number
}

export type LotFacts = {
  id: number
  /** sent back with every change of the lot */
  version: number
  state: LotState
  /** counted size, or the announced one before the count */
  size: number
  supplier: { id: number; name: string }
  item: { id: number; name: string; lengthMetres: string }
  terms: LotTerms
  announced: Announcement
  received: Receipt | undefined
  plan: PlanFacts | undefined
  draw: DrawFacts | undefined
  progress: Progress
  condition: Condition
  /** where the frozen plan stands; undefined before it is frozen */
  reached: Reached | undefined
  /** that of `reached` */
  verdict: Verdict | undefined
  /** the cord with which the rejection number was reached */
  rejectedSince: { position: number; carton: number; place: number; at: Date } | undefined
  /** undefined before there is a verdict */
  proof: Proof | undefined
  decision: DecisionFacts | undefined
  /** once a screening is through: what its sample had predicted, and what came out; undefined where a cord is not known */
  prediction: Prediction | undefined
  /** after a screening */
  closing: DecisionFacts | undefined
  withdrawal: Withdrawal | undefined
  /** once the lot is decided for good */
  balance: Balance | undefined
  /** whose turn it is and for what; undefined when the lot is done */
  next: Turn | undefined
  /** the latest first */
  audit: AuditLine[]
  /** seconds by which the machine's clock stood behind when a line about the lot or its cords was written, at most; undefined where it never did */
  clockBehind: number | undefined
}

/** Everything a lot's page tells; throws Refusal (missing) where there is no such lot. */
export async function factsOf(db: Db, lotId: number): Promise<LotFacts> {
  const subject = `lot/${lotId}`
  const audit = await auditOf(db, { subject, before: undefined })
  return { ...(await storyOf(db, lotId)), audit, clockBehind: await clockBehindOf(db, subject) }
}

/** The same without what the audit tells, inside a transaction too: what a decision rests on. */
export async function storyOf(db: Db | Tx, lotId: number): Promise<Omit<LotFacts, 'audit' | 'clockBehind'>> {
  const row = await rowOf(db, lotId)
  const { lot, supplier, item, plan, draw } = row
  const signed = await decisionsOf(db, lotId)
  const first = signed.find((decision) => decision.after === 'sample')
  const closing = signed.find((decision) => decision.after === 'screening')
  const name = await namesOf(db, [row, ...signed])
  const tally = await tallyOf(db, lotId)
  const size = lot.size ?? lot.announcedSize
  const known = { recorded: tally.sampleRecorded, found: tally.sampleNonconforming }
  const reached = plan && reachedBy(plan.stages, await stageCountsOf(db, plan, tally))
  const verdict = reached?.verdict
  const wholeLot = first?.outcome === 'screened'
  const { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, standIns } = tally
  const toDo = wholeLot ? size - sampleRecorded - restRecorded - standIns : (reached?.left ?? 0)
  const progress = { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, toDo }
  const condition = conditionOf(tally)
  return {
    id: lot.id,
    version: lot.version,
    state: lot.state,
    size,
    supplier,
    item: { id: item.id, name: item.name, lengthMetres: item.lengthMetres },
    terms: termsOf(item, plan, size),
    announced: announcementOf(lot, name),
    received: receiptOf(lot, name),
    plan: plan && planOf(plan, name),
    draw: draw && drawOf(draw, standIns, name),
    progress,
    condition,
    reached,
    verdict,
    rejectedSince:
      plan && reached?.verdict === 'reject' ? await rejectedSince(db, plan, reached, lot.cordsInCarton) : undefined,
    proof: plan && reached?.verdict ? proofAfter(plan, reached, known) : undefined,
    decision: first && decisionOf(first, name),
    prediction:
      plan && wholeLot && toDo === 0 && condition.kind === 'kept'
        ? predictionOf(plan, first, sampleNonconforming + restNonconforming)
        : undefined,
    closing: closing && decisionOf(closing, name),
    withdrawal: withdrawalOf(lot, name),
    balance: balanceOf(lot, tally),
    next: turnOf(lot.state, verdict),
  }
}

async function rowOf(db: Db | Tx, lotId: number) {
  const [row] = await db
    .select({ lot: lots, supplier: { id: suppliers.id, name: suppliers.name }, item: items, plan: plans, draw: draws })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(items, eq(items.id, lots.itemId))
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(draws, eq(draws.lotId, lots.id))
    .where(eq(lots.id, lotId))
  if (!row) throw new Refusal('missing', `There is no lot ${lotId}`)
  return { ...row, plan: row.plan ?? undefined, draw: row.draw ?? undefined }
}

/** The evidence is left out: it holds every result. */
function decisionsOf(db: Db | Tx, lotId: number) {
  const { evidence, ...shown } = getTableColumns(decisions)
  return db.select(shown).from(decisions).where(eq(decisions.lotId, lotId))
}
