// The recount of a lot when a drawn place turns out to be empty.
import type { Db, Tx } from '../../../db/client.ts'
import { recounts } from '../../../db/schema/cords.ts'
import { results } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { once } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { type LotUnderTest, lockLotUnderTest, requireState } from '../record/lock.ts'
import { requireItsStage } from '../record/open-stage.ts'
import { drawReserve } from '../record/reserve.ts'
import { entriesOf, tallyOf } from '../record/tally.ts'
import { completeIfScreened, cordUnderTest, type PlanUnderTest, standingResult } from '../record/testing.ts'
import { lifecycle } from '../rules/lifecycle.ts'
import { recountRange } from '../rules/recount.ts'

/** size: cords counted in the whole lot. */
type Recounted = { key: string; position: number; size: number; reason: string }

/**
 * Records that no cord lies in a drawn place, and how many cords the lot has after all. The frozen size and plan stay; the next
 * reserve of the draw takes the place at once, which leaves the sample a random one of the cords that are there. Returns the
 * position of the reserve, or the empty one where every place is drawn.
 */
export async function recountLot(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, position, size, reason: typed }: Recounted,
): Promise<number> {
  const reason = checkedReason(typed)
  const subject = `lot/${lotId}/cord/${position}`
  const sent = { key, person: inspector, act: 'lot.recounted' as const, subject, input: { size, reason } }
  return db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'recount-lot')
    const lot = await lockLotUnderTest(tx, lotId)
    const { made } = await once(tx, sent, async () => {
      requireState(lot, 'record')
      const { plan, drawn } = await cordUnderTest(tx, lotId, position)
      if (!drawn) throw new Refusal('invalid', 'cord/not-drawn', { position }, 'position')
      const standing = await standingResult(tx, lotId, position)
      if (standing) throw new Refusal('conflict', 'cord/recorded-before', { position, recordedBy: standing.recordedBy })
      await requireItsStage(tx, lot, plan, drawn)
      await requirePossible(tx, lot, plan, size)
      await tx.insert(recounts).values({ lotId, position, size, reason, countedBy: inspector.id })
      const entry = { kind: 'no-cord', state: 'not-tested', nonconforming: true, counts: false } as const
      await tx.insert(results).values({ lotId, position, ...entry, note: reason, recordedBy: inspector.id })
      const place = { lotId, position, stage: drawn.stage, allowedBy: inspector.id }
      const reserve = lifecycle[lot.state].rule ? await drawReserve(tx, place) : undefined
      await record(tx, inspector, sent.act, subject, { size, ...reserve })
      await completeIfScreened(tx, inspector, lot)
      return reserve?.standIn ?? position
    })
    return made
  })
}

function checkedReason(typed: string): string {
  const reason = typed.trim()
  if (reason === '' || reason.length > lengths.note) throw new Refusal('invalid', 'recount/reason', {}, 'reason')
  return reason
}

/** No more cords than places that are not empty, no fewer than were seen, and enough for a plan of several samples. */
async function requirePossible(tx: Tx, lot: LotUnderTest, plan: PlanUnderTest, size: number): Promise<void> {
  const tally = await tallyOf(tx, lot.id)
  const { most, least } = recountRange(lot.size ?? 0, { ...tally, entries: entriesOf(tally) })
  if (size > most || size < least) throw new Refusal('invalid', 'recount/size', { least, most }, 'size')
  const needed = plan.stages.at(-1)?.sampleSize ?? 0
  if (plan.stages.length > 1 && size < needed) throw new Refusal('conflict', 'recount/plan-needs-more', { needed })
}
