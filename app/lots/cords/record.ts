// The inspector's result of one drawn cord.
import { sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { results } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import { firstTime } from '../../people/once.ts'
import type { Person } from '../../people/person.ts'
import { requireStanding } from '../../people/standing.ts'
import { lockLot, requireState } from '../lock.ts'
import { type Entry, sameEntry } from './entry.ts'
import { checkedEntry, type Judged, judgedBy } from './judged.ts'
import { columnsOf, entryIn } from './row.ts'
import { requireItsStage } from './stages.ts'
import { drawnCord, moveOn, planOf, standingResult } from './testing.ts'

/**
 * Records one result and says what it comes to. A cord has one result: of two inspectors the second is told who was
 * first. The same form sent again changes nothing and gets the same answer; with other values in it, it is refused.
 */
export async function recordResult(
  db: Db,
  inspector: Person,
  lotId: number,
  { key, position, ...said }: Entry & { key: string; position: number },
): Promise<Judged> {
  const entry = checkedEntry(said)
  return db.transaction(async (tx) => {
    await requireStanding(tx, inspector, 'inspector', 'record a result')
    const lot = await lockLot(tx, lotId)
    const again = !(await firstTime(tx, inspector, key))
    const standing = await standingResult(tx, lotId, position)
    if (standing && again && sameEntry(entryIn(standing.result), entry)) return judgedBy(entry, await planOf(tx, lotId))
    if (again) throw new Refusal('conflict', 'This form was sent before with other values: correct that entry instead')
    requireState(lot, ['drawn', 'screening'], 'tested')
    const cord = await drawnCord(tx, lotId, position)
    if (standing)
      throw new Refusal(
        'conflict',
        `Cord ${position} was recorded by ${standing.recordedBy}: correct that entry instead`,
      )

    const plan = await planOf(tx, lotId)
    await requireItsStage(tx, lot, plan, cord)
    const judged = judgedBy(entry, plan)
    await tx.insert(results).values({
      lotId,
      position,
      ...columnsOf(entry, judged),
      recordedBy: inspector.id,
      recordedAt: sql`clock_timestamp()`, // the transaction began before it waited for the lot: its own time could be out of order
    })
    await moveOn(tx, inspector, lot)
    await record(tx, inspector, 'cord.recorded', `lot/${lotId}/cord/${position}`, { ...entry, state: judged.state })
    return judged
  })
}
