// What every act on a cord needs first: the lot under test, the plan's terms, and the cord as it was drawn.
import { and, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { plans } from '../../../db/schema/lots.ts'
import { people } from '../../../db/schema/people.ts'
import { drawnCords, results } from '../../../db/schema/results.ts'
import { statement } from '../../../db/statement.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import { undecidedKinds } from '../../terms/cord.ts'
import type { Person } from '../../terms/person.ts'
import type { ConformityTerms } from '../rules/conformity.ts'
import type { Entry } from '../rules/entry.ts'
import type { PlanWithStandard } from '../rules/first-fetch.ts'
import { lifecycle } from '../rules/lifecycle.ts'
import type { AssessedEntry } from '../rules/reading.ts'
import { changeLot, type LotUnderTest } from './lock.ts'
import { columnsOf } from './row.ts'
import { entriesOf, tallyOf } from './tally.ts'

export type PlanRow = typeof plans.$inferSelect

export async function frozenPlanOf(tx: Db | Tx, lotId: number): Promise<PlanRow> {
  const [plan] = await tx.select().from(plans).where(eq(plans.lotId, lotId))
  if (!plan) throw new Refusal('conflict', 'plan/missing', { lot: lotId })
  return plan
}

/** Of a frozen plan what judges a cord and tells the stages. */
export type PlanUnderTest = Pick<
  PlanRow,
  'lotId' | 'stages' | 'undecidedCounts' | keyof ConformityTerms | keyof PlanWithStandard
>

/**
 * What an act on a cord needs of it, at once: the plan's terms, the cord as it was drawn, undefined where it was not, and
 * whether an entry stands.
 */
export async function cordUnderTest(tx: Tx, lotId: number, position: number) {
  const [found] = await itsCord(tx, { lotId, position })
  if (!found) throw new Refusal('conflict', 'plan/missing', { lot: lotId })
  return { plan: found.plan, drawn: found.drawn ?? undefined, recorded: found.entry !== null }
}

/** The entry that stands for a cord, with who made it; undefined where there is none. */
export async function standingResult(tx: Tx, lotId: number, position: number) {
  const [found] = await tx
    .select({ result: results, recordedBy: people.name })
    .from(results)
    .innerJoin(people, eq(people.id, results.recordedBy))
    .where(and(eq(results.lotId, lotId), eq(results.position, position)))
  return found
}

/** The cord as it was drawn; refuses one that was not. */
export async function drawnCord(tx: Tx, lotId: number, position: number) {
  const [cord] = await tx
    .select()
    .from(drawnCords)
    .where(and(eq(drawnCords.lotId, lotId), eq(drawnCords.position, position)))
  if (!cord) throw new Refusal('invalid', 'cord/not-drawn', { position }, 'position')
  return cord
}

/**
 * An entry as it is kept. Whether its cord counts, or is undecided: gone or spoiled here it is while the sample is tested, unless the plan
 * has it count. In a screening no reserve is left, and it counts.
 */
export function keptAs(entry: Entry, judged: AssessedEntry, lot: LotUnderTest, { undecidedCounts }: PlanUnderTest) {
  const open = undecidedKinds.some((kind) => kind === entry.kind) && lifecycle[lot.state].rule !== undefined
  const undecided = open && undecidedCounts === 'manager-rules'
  return { ...columnsOf(entry, judged), counts: !undecided, undecided }
}

/** The last entry of a screening ends it. */
export async function completeIfScreened(tx: Tx, person: Person, lot: LotUnderTest): Promise<void> {
  if (!lifecycle[lot.state].record?.to.includes('screened') || entriesOf(await tallyOf(tx, lot.id)) !== lot.size) return
  await changeLot(tx, lot, { state: 'screened' })
  await record(tx, person, 'lot.screened', `lot/${lot.id}`, { size: lot.size })
}

type OneCord = { lotId: number; position: number }
const itsCord = statement<OneCord>('cord_under_test', ['lotId', 'position']).worded((db, { lotId, position }) => {
  const { stages, marginalPolicy, crosstalkAccuracy, returnLossAccuracy, kind, sampleSize, undecidedCounts } = plans
  const { standardSampleSize, standardAcceptanceNumber, standardRejectionNumber, standardSeverity } = plans
  const { standardLimit, standardLevel, standardLetter, standardStanding } = plans
  return db
    .select({
      plan: {
        lotId: plans.lotId,
        ...{ stages, marginalPolicy, crosstalkAccuracy, returnLossAccuracy, kind, sampleSize, undecidedCounts },
        ...{ standardSampleSize, standardAcceptanceNumber, standardRejectionNumber, standardSeverity },
        ...{ standardLimit, standardLevel, standardLetter, standardStanding },
      },
      drawn: {
        position: drawnCords.position,
        stage: drawnCords.stage,
        pick: drawnCords.pick,
        takesPick: drawnCords.takesPick,
      },
      entry: results.entry,
    })
    .from(plans)
    .leftJoin(drawnCords, and(eq(drawnCords.lotId, plans.lotId), eq(drawnCords.position, position)))
    .leftJoin(results, and(eq(results.lotId, plans.lotId), eq(results.position, position)))
    .where(eq(plans.lotId, lotId))
})
