// The manager's ruling on a drawn cord that is gone or spoiled here.
import { and, eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { rulings } from '../../../db/schema/cords.ts'
import { results } from '../../../db/schema/results.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { once } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import type { CordRuling } from '../../terms/cord.ts'
import type { Person } from '../../terms/person.ts'
import { lockLot, requireState } from '../record/lock.ts'
import { drawReserve } from '../record/reserve.ts'
import { drawnCord, standingResult } from '../record/testing.ts'

/** entryNumber: the report that the manager saw. */
type Ruled = { key: string; position: number; entryNumber: number; ruling: CordRuling; reason: string }

/**
 * Rules, once and for good, that the next reserve of the recorded draw takes the cord's place, or that the cord counts as not
 * conforming. To take a reserve when the rest is known is to stop at will, so the record keeps what was known at that moment.
 * Returns the reserve's position, or that of the cord where it counts.
 */
export async function ruleOnCord(
  db: Db,
  manager: Person,
  lotId: number,
  { key, position, entryNumber, ruling, reason: typed }: Ruled,
): Promise<number> {
  const reason = checkedReason(typed)
  const subject = `lot/${lotId}/cord/${position}`
  const input = { entryNumber, ruling, reason }
  return db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'rule-on-cord')
    const lot = await lockLot(tx, lotId)
    const { made } = await once(tx, { key, person: manager, act: 'cord.ruled', subject, input }, async () => {
      requireState(lot, 'rule')
      const { stage } = await drawnCord(tx, lotId, position)
      await requireUndecided(tx, manager, { lotId, position, entryNumber })
      const known = await keepRuling(tx, manager, { lotId, position, ruling, reason })
      const reserve =
        ruling === 'reserve' ? await drawReserve(tx, { lotId, position, stage, allowedBy: manager.id }) : undefined
      if (ruling === 'reserve' && !reserve) throw new Refusal('conflict', 'ruling/none-left', {}, 'ruling')
      await tx
        .update(results)
        .set({ undecided: false, counts: ruling === 'nonconforming' })
        .where(and(eq(results.lotId, lotId), eq(results.position, position)))
      await record(tx, manager, 'cord.ruled', subject, { ruling, reason, known, ...reserve })
      return reserve?.standIn ?? position
    })
    return made
  })
}

/** What was known is written by the database, from its own counts, and handed back. */
async function keepRuling(
  tx: Tx,
  { id: ruledBy, separateDuties: dutiesSeparated }: Person,
  ruled: { lotId: number; position: number; ruling: CordRuling; reason: string },
) {
  const [known] = await tx
    .insert(rulings)
    .values({ ...ruled, recorded: 0, found: 0, undecided: 0, dutiesSeparated, ruledBy })
    .returning({ recorded: rulings.recorded, found: rulings.found, undecided: rulings.undecided })
  return known
}

function checkedReason(typed: string): string {
  const reason = typed.trim()
  if (reason === '' || reason.length > lengths.note) throw new Refusal('invalid', 'ruling/reason', {}, 'reason')
  return reason
}

/** Who reported a cord does not rule on it, unless the firm has switched that rule off. The database holds this too. */
async function requireUndecided(
  tx: Tx,
  manager: Person,
  { lotId, position, entryNumber }: { lotId: number; position: number; entryNumber: number },
): Promise<void> {
  const standing = await standingResult(tx, lotId, position)
  if (!standing?.result.undecided) throw new Refusal('conflict', 'ruling/not-needed', { position })
  if (standing.result.entry !== entryNumber) throw new Refusal('conflict', 'ruling/corrected-since', { position })
  if (manager.separateDuties && standing.result.recordedBy === manager.id)
    throw new Refusal('forbidden', 'ruling/own-report', { position, name: manager.name })
}
