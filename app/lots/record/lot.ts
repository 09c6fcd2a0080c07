// One lot with everything that its page tells.

import { eq, getTableColumns } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { draws } from '../../../db/schema/results.ts'
import { type AuditLine, auditOf, clockBehindOf } from '../../audit/list.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotState, Verdict } from '../../terms/lot.ts'
import { boundsAfter, type LotBounds } from '../rules/bounds.ts'
import { lifecycle, type OpenActs } from '../rules/lifecycle.ts'
import { type NextStep, nextStepOf } from '../rules/next-step.ts'
import { type Prediction, predictionOf } from '../rules/prediction.ts'
import { type PlanProgress, progressOf } from '../rules/progress.ts'
import { type Balance, balanceOf } from './balance.ts'
import { type DrawIntegrity, drawIntegrityOf, rejectedSince } from './integrity.ts'
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
  planFactsOf,
  type Receipt,
  receiptOf,
  termsOf,
  type Withdrawal,
  withdrawalOf,
} from './steps.ts'
import { stageCountsOf, tallyOf } from './tally.ts'

export type RecordedCords = {
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
  /** what may be done with it now, and by whom */
  acts: OpenActs
  /** counted size, or the announced one before the count */
  size: number
  supplier: { id: number; name: string }
  item: { id: number; name: string; lengthMetres: string }
  terms: LotTerms
  announced: Announcement
  received: Receipt | undefined
  plan: PlanFacts | undefined
  draw: DrawFacts | undefined
  progress: RecordedCords
  drawIntegrity: DrawIntegrity
  /** where the frozen plan stands; undefined before it is frozen */
  planProgress: PlanProgress | undefined
  /** that of `planProgress` */
  verdict: Verdict | undefined
  /** the cord with which the rejection number was planProgress */
  rejectedSince: { position: number; carton: number; place: number; at: Date } | undefined
  /** undefined before there is a verdict */
  bounds: LotBounds | undefined
  decision: DecisionFacts | undefined
  /** once a screening is through: what its sample had predicted, and what came out; undefined where a cord is not known */
  prediction: Prediction | undefined
  /** after a screening */
  closing: DecisionFacts | undefined
  withdrawal: Withdrawal | undefined
  /** once the lot is decided for good */
  balance: Balance | undefined
  /** whose turn it is and for what; undefined when the lot is done */
  next: NextStep | undefined
  /** the latest first */
  audit: AuditLine[]
  /** seconds by which the machine's clock stood behind when a line about the lot or its cords was written, at most; undefined where it never did */
  clockBehind: number | undefined
}

/** Everything a lot's page tells; throws Refusal (missing) where there is no such lot. */
export async function factsOf(db: Db, lotId: number): Promise<LotFacts> {
  const subject = `lot/${lotId}`
  const audit = await auditOf(db, { subject, before: undefined })
  return { ...(await lotRecordOf(db, lotId)), audit, clockBehind: await clockBehindOf(db, subject) }
}

/** The same without what the audit tells, inside a transaction too: what a decision rests on. */
export async function lotRecordOf(db: Db | Tx, lotId: number): Promise<Omit<LotFacts, 'audit' | 'clockBehind'>> {
  const row = await rowOf(db, lotId)
  const { lot, supplier, item, plan, draw } = row
  const signed = await decisionsOf(db, lotId)
  const first = signed.find((decision) => decision.after === 'sample')
  const closing = signed.find((decision) => decision.after === 'screening')
  const name = await namesOf(db, [row, ...signed])
  const tally = await tallyOf(db, lotId)
  const size = lot.size ?? lot.announcedSize
  const known = { recorded: tally.sampleRecorded, found: tally.sampleNonconforming }
  const planProgress = plan && progressOf(plan.stages, await stageCountsOf(db, plan, tally))
  const verdict = planProgress?.verdict
  const wholeLot = first?.outcome === 'screened'
  const { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, standIns } = tally
  const toDo = wholeLot ? size - sampleRecorded - restRecorded - standIns : (planProgress?.left ?? 0)
  const progress = { sampleRecorded, sampleNonconforming, restRecorded, restNonconforming, toDo }
  const drawIntegrity = drawIntegrityOf(tally)
  return {
    id: lot.id,
    version: lot.version,
    state: lot.state,
    acts: lifecycle[lot.state],
    size,
    supplier,
    item: { id: item.id, name: item.name, lengthMetres: item.lengthMetres },
    terms: termsOf(item, plan, size),
    announced: announcementOf(lot, name),
    received: receiptOf(lot, name),
    plan: plan && planFactsOf(plan, name),
    draw: draw && drawOf(draw, standIns, name),
    progress,
    drawIntegrity,
    planProgress,
    verdict,
    rejectedSince:
      plan && planProgress?.verdict === 'reject'
        ? await rejectedSince(db, plan, planProgress, lot.cordsInCarton)
        : undefined,
    bounds: plan && planProgress?.verdict ? boundsAfter(plan, planProgress, known) : undefined,
    decision: first && decisionOf(first, name),
    prediction:
      plan && wholeLot && toDo === 0 && drawIntegrity.kind === 'kept'
        ? predictionOf(plan, first, sampleNonconforming + restNonconforming)
        : undefined,
    closing: closing && decisionOf(closing, name),
    withdrawal: withdrawalOf(lot, name),
    balance: balanceOf(lot, tally),
    next: nextStepOf(lot.state, verdict),
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
