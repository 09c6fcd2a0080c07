// The manager's decision on a tested lot.

import type { Db, Tx } from '../../../db/client.ts'
import { decisions } from '../../../db/schema/lots.ts'
import { record } from '../../audit/record.ts'
import { calendarDay } from '../../kit/fields.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { LotAct, Verdict } from '../../terms/lot.ts'
import type { Person } from '../../terms/person.ts'
import { gatherEvidence } from '../evidence/gather.ts'
import { keepRest } from '../record/drawn.ts'
import { changeLot, type LockedLot } from '../record/lock.ts'
import type { ConcessionTerms } from '../record/steps.ts'
import { entriesOf, firstFetchCount, planOnRecount, stageCountsOf, tallyOf } from '../record/tally.ts'
import { frozenPlanOf } from '../record/testing.ts'
import { boundsAfter } from '../rules/bounds.ts'
import { firstFetchOf } from '../rules/first-fetch.ts'
import { stateAfter } from '../rules/lifecycle.ts'
import { progressOf } from '../rules/progress.ts'
import { checkSignature, lockToDecide, type Signature } from './sign.ts'

export type DecisionChoice =
  | { outcome: 'accepted' | 'screened' | 'returned' }
  /** until: a date such as 2027-03-31 */
  | { outcome: 'conceded'; concession: ConcessionTerms }

/**
 * Decides on a drawn lot: once, never before the plan has a verdict, on what the manager saw (`version`), and with a
 * reason where it goes against the plan. While a drawn cord is undecided the lot can only go back. Signing freezes everything the decision rests on. Screening draws all the
 * other cords and gives the lot back to the bench.
 */
export async function decideLot(
  db: Db,
  manager: Person,
  lotId: number,
  decision: Signature & DecisionChoice,
): Promise<void> {
  const reason = await checkSignature(db, manager, decision)
  const concession = decision.outcome === 'conceded' ? checkedConcession(decision.concession) : undefined
  await db.transaction(async (tx) => {
    const { outcome } = decision
    const lot = await lockToDecide(tx, manager, lotId, { version: decision.version, act: 'accept' })
    const { plan, known, tested, undecided, verdict, progress, standard } = await sampleOf(tx, lotId)
    if (undecided > 0 && outcome !== 'returned')
      throw new Refusal('conflict', 'decision/undecided', { undecided }, 'outcome')
    requireReason(outcome, { verdict, reason })
    if (concession && concession.cords > plan.lotSize)
      throw new Refusal('invalid', 'concession/more-than-lot', { lotSize: plan.lotSize }, 'cords')
    if (outcome === 'screened' && tested === lot.size)
      throw new Refusal('invalid', 'decision/nothing-to-screen', {}, 'outcome')

    const { recorded, found } = progress
    const { upperInLot } = boundsAfter(plan, progress, known)
    const dutiesSeparated = manager.separateDuties
    const decided = { verdict, reason, recorded, found, dutiesSeparated }
    await tx.insert(decisions).values({
      lotId,
      after: 'sample',
      outcome,
      ...decided,
      upperBoundInLot: upperInLot,
      evidence: await gatherEvidence(tx, lot),
      ...columnsOf(concession),
      decidedBy: manager.id,
    })
    await settle(tx, lot, outcome)
    await record(tx, manager, actions[outcome], `lot/${lotId}`, { ...decided, upperInLot, concession, standard })
  })
}

function requireReason(
  outcome: DecisionChoice['outcome'],
  { verdict, reason }: { verdict: Verdict; reason: string },
): void {
  if (reason === '' && !follows(outcome, verdict))
    throw new Refusal('invalid', 'decision/against-the-plan', { verdict }, 'reason')
}

/** What the plan says of the sample as it is recorded; refused before it says anything. */
async function sampleOf(tx: Tx, lotId: number) {
  const tally = await tallyOf(tx, lotId)
  const plan = planOnRecount(await frozenPlanOf(tx, lotId), tally)
  const progress = progressOf(plan.stages, await stageCountsOf(tx, plan, tally))
  const { verdict, recorded, left } = progress
  if (!verdict) throw new Refusal('conflict', 'decision/sample-incomplete', { recorded, of: recorded + left })
  const known = { recorded: tally.sampleRecorded, found: tally.sampleNonconforming }
  const standard = firstFetchOf(plan, firstFetchCount(tally))?.verdict
  return { plan, progress, verdict, known, tested: entriesOf(tally), undecided: tally.undecided, standard }
}

function columnsOf(concession: ConcessionTerms | undefined) {
  return {
    riskBearer: concession?.riskBearer,
    concessionUse: concession?.use,
    concessionCords: concession?.cords,
    concessionUntil: concession?.until,
  }
}

const acts = {
  accepted: 'accept',
  conceded: 'concede',
  screened: 'screen',
  returned: 'return',
} as const satisfies Record<DecisionChoice['outcome'], LotAct>

const actions = {
  accepted: 'lot.accepted',
  conceded: 'lot.conceded',
  screened: 'lot.screening',
  returned: 'lot.returned',
} as const satisfies Record<DecisionChoice['outcome'], string>

/** A concession never follows: it lets through what the plan or the terms do not. */
function follows(outcome: DecisionChoice['outcome'], verdict: Verdict): boolean {
  if (verdict === 'accept') return outcome === 'accepted'
  return outcome === 'returned' || outcome === 'screened'
}

async function settle(tx: Tx, lot: LockedLot, outcome: DecisionChoice['outcome']): Promise<void> {
  await changeLot(tx, lot, { state: stateAfter(acts[outcome], lot.state) })
  if (outcome === 'screened') await keepRest(tx, lot.id, lot.size ?? 0)
}

function checkedConcession({ riskBearer, use, cords, until }: ConcessionTerms): ConcessionTerms {
  const said = (field: string, code: 'concession/risk-bearer' | 'concession/use', typed: string) => {
    const kept = typed.trim()
    if (kept === '' || kept.length > lengths.concession) throw new Refusal('invalid', code, {}, field)
    return kept
  }
  if (!Number.isInteger(cords) || cords < 1) throw new Refusal('invalid', 'concession/cords', {}, 'cords')
  return {
    riskBearer: said('riskBearer', 'concession/risk-bearer', riskBearer),
    use: said('use', 'concession/use', use),
    cords,
    until: checkedDate(until),
  }
}

/** 2027-02-30 has the form of a date and is none. */
function checkedDate(until: string): string {
  if (!calendarDay('').safeParse(until).success) throw new Refusal('invalid', 'concession/until', {}, 'until')
  return until
}
