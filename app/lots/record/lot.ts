// One lot with everything that its page tells.

import { eq, getTableColumns } from 'drizzle-orm'
import { type Db, readTogether, type Tx } from '../../../db/client.ts'
import { decisions, lots, plans } from '../../../db/schema/lots.ts'
import { planRules } from '../../../db/schema/plan-rules.ts'
import { items, suppliers } from '../../../db/schema/register.ts'
import { draws } from '../../../db/schema/results.ts'
import { type AuditLine, auditOf, clockBehindOf } from '../../audit/list.ts'
import { allOf } from '../../kit/all-of.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotState, Verdict } from '../../terms/lot.ts'
import type { FirstFetch } from '../rules/first-fetch.ts'
import { lifecycle, type OpenActs } from '../rules/lifecycle.ts'
import { type NextStep, nextStepOf } from '../rules/next-step.ts'
import { type PlanProgress, progressOf, type SampleCount } from '../rules/progress.ts'
import { recountRange } from '../rules/recount.ts'
import { type Balance, balanceOf } from './balance.ts'
import { type LotLinks, linksOf } from './former.ts'
import { rejectedSince } from './integrity.ts'
import { type NotHad, notHadOf } from './not-had.ts'
import { type RuleFacts, ruleFactsOf } from './rule.ts'
import { fetchOf, type Shown, shownBy } from './shown.ts'
import {
  type Announcement,
  announcementOf,
  type DecisionFacts,
  type DrawFacts,
  decisionOf,
  drawOf,
  type LotTerms,
  namesIn,
  type PlanFacts,
  personNameOf,
  planFactsOf,
  type Receipt,
  receiptOf,
  termsOf,
  type Withdrawal,
  withdrawalOf,
} from './steps.ts'
import { entriesOf, planOnRecount, stageCountsOf, type Tally, tallyOf } from './tally.ts'

export type LotFacts = Shown & {
  id: number
  /** sent back with every change of the lot */
  version: number
  state: LotState
  /** what may be done with it now, and by whom */
  acts: OpenActs
  /** counted size, or the announced one before the count */
  size: number
  supplier: { id: number; name: string }
  /** groupSize: cords of a group as the item says it, for a plan that is not frozen yet */
  item: { id: number; name: string; lengthMetres: string; groupSize: number }
  terms: LotTerms
  links: LotLinks
  announced: Announcement
  received: Receipt | undefined
  /** by which its plan freezes with the receipt; undefined where the officer chose none */
  rule: RuleFacts | undefined
  plan: PlanFacts | undefined
  draw: DrawFacts | undefined
  /** what the next recount may find */
  recountRange: { least: number; most: number }
  /** drawn cords that cannot be had: what is undecided, ruled on and recounted */
  notHad: NotHad
  /** where the frozen plan stands; undefined before it is frozen */
  planProgress: PlanProgress | undefined
  /** the standard's own plan on the first picks of the draw; undefined where none is frozen with the lot */
  firstFetch: FirstFetch | undefined
  /** that of `planProgress` */
  verdict: Verdict | undefined
  /** the cord with which the rejection number was reached */
  rejectedSince: { position: number; carton: number; place: number; at: Date } | undefined
  decision: DecisionFacts | undefined
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

export type LotRecord = Omit<LotFacts, 'audit' | 'clockBehind'>

/** Everything a lot's page tells; throws Refusal (missing) where there is no such lot. */
export function factsOf(db: Db, lotId: number): Promise<LotFacts> {
  const subject = `lot/${lotId}`
  return readTogether(db, async (tx) => {
    const [record, audit, clockBehind] = await allOf([
      lotRecordOf(tx, lotId),
      auditOf(tx, { subject }),
      clockBehindOf(tx, subject),
    ])
    return { ...record, audit, clockBehind }
  })
}

/** The same without what the audit tells. */
export function readLot(db: Db, lotId: number): Promise<LotRecord> {
  return readTogether(db, (tx) => lotRecordOf(tx, lotId))
}

/** For a transaction: what a decision rests on, and what is read of the lot's cords beside it. */
export async function lotRecordOf(db: Db | Tx, lotId: number): Promise<LotRecord> {
  const [row, signed, tally, links] = await allOf([
    rowOf(db, lotId),
    decisionsOf(db, lotId),
    tallyOf(db, lotId),
    linksOf(db, lotId),
  ])
  const plan = row.plan && planOnRecount(row.plan, tally)
  const [counts, notHad] = await allOf([plan ? stageCountsOf(db, plan, tally) : [], notHadOf(db, lotId, tally)])
  const planProgress = plan && progressOf(plan.stages, counts)
  const since =
    row.plan && planProgress?.verdict === 'reject'
      ? await rejectedSince(db, row.plan, planProgress, row.lot.cordsInCarton)
      : undefined
  return factsIn({ ...row, signed, tally, links, counts, notHad, planProgress, since })
}

type Read = Awaited<ReturnType<typeof rowOf>> & {
  signed: Awaited<ReturnType<typeof decisionsOf>>
  tally: Tally
  links: LotLinks
  counts: SampleCount[]
  notHad: NotHad
  planProgress: PlanProgress | undefined
  since: LotFacts['rejectedSince']
}

function factsIn(read: Read): LotRecord {
  const { lot, supplier, item, rule, plan, draw, by, signed, tally, notHad, planProgress } = read
  const first = signed.find((decision) => decision.after === 'sample')
  const closing = signed.find((decision) => decision.after === 'screening')
  const name = namesIn([...by, ...signed.map(({ decidedBy, decider }) => [decidedBy, decider] as const)])
  const size = lot.size ?? lot.announcedSize
  const verdict = planProgress?.verdict
  const firstFetch = plan && fetchOf(plan, tally, notHad)
  const shown = shownBy(read, { screened: first?.outcome === 'screened' ? first : undefined, size, firstFetch })
  const waiting = { toDo: shown.progress.toDo, undecided: tally.undecided }
  return {
    id: lot.id,
    version: lot.version,
    state: lot.state,
    acts: lifecycle[lot.state],
    size,
    supplier,
    item: { id: item.id, name: item.name, lengthMetres: item.lengthMetres, groupSize: item.groupSize },
    terms: termsOf(item, plan, { ...lot, size, resubmitted: lot.resubmissionOf !== null }),
    links: read.links,
    announced: announcementOf(lot, name),
    received: receiptOf(lot, name),
    rule: rule && ruleFactsOf(rule, name),
    plan: plan && planFactsOf(plan, name),
    draw: draw && drawOf(draw, tally.standIns, name),
    ...shown,
    notHad,
    recountRange: recountRange(size, { ...tally, entries: entriesOf(tally) }),
    planProgress,
    firstFetch,
    verdict,
    rejectedSince: read.since,
    decision: first && decisionOf(first, name),
    closing: closing && decisionOf(closing, name),
    withdrawal: withdrawalOf(lot, name),
    balance: balanceOf(lot, tally),
    next: nextStepOf({ state: lot.state, verdict, fetchOpen: firstFetch?.open ?? false, ...waiting }),
  }
}

/** Lot, supplier, item, plan and draw, with the names of who acted. */
async function rowOf(db: Db | Tx, lotId: number) {
  const [row] = await db
    .select({
      lot: lots,
      supplier: { id: suppliers.id, name: suppliers.name },
      item: items,
      rule: planRules,
      plan: plans,
      draw: draws,
      announcer: personNameOf(lots.announcedBy),
      receiver: personNameOf(lots.receivedBy),
      withdrawer: personNameOf(lots.withdrawnBy),
      chooser: personNameOf(planRules.chosenBy),
      freezer: personNameOf(plans.frozenBy),
      drawer: personNameOf(draws.drawnBy),
    })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(items, eq(items.id, lots.itemId))
    .leftJoin(planRules, eq(planRules.lotId, lots.id))
    .leftJoin(plans, eq(plans.lotId, lots.id))
    .leftJoin(draws, eq(draws.lotId, lots.id))
    .where(eq(lots.id, lotId))
  if (!row) throw new Refusal('missing', 'lot/missing', { lot: lotId })
  const { lot, supplier, item, rule, plan, draw } = row
  const by = [
    [lot.announcedBy, row.announcer],
    [lot.receivedBy, row.receiver],
    [lot.withdrawnBy, row.withdrawer],
    [rule?.chosenBy, row.chooser],
    [plan?.frozenBy, row.freezer],
    [draw?.drawnBy, row.drawer],
  ] as const
  return { lot, supplier, item, rule: rule ?? undefined, plan: plan ?? undefined, draw: draw ?? undefined, by }
}

/** The evidence is left out: it holds every result. */
async function decisionsOf(db: Db | Tx, lotId: number) {
  const { evidence, ...shown } = getTableColumns(decisions)
  return db
    .select({ ...shown, decider: personNameOf(decisions.decidedBy) })
    .from(decisions)
    .where(eq(decisions.lotId, lotId))
}
