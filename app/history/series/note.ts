// What a manager says of a series: the supplier has acted, or production is steady and reduced inspection is wanted, or no more.

import type { Db } from '../../../db/client.ts'
import { seriesNotes } from '../../../db/schema/register.ts'
import { record } from '../../audit/record.ts'
import { lengths } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'
import { once } from '../../people/once.ts'
import { requireStanding } from '../../people/standing.ts'
import { switchingOf } from '../../series/inspection.ts'
import { possibleNotes, type SeriesNote } from '../../series/switching.ts'
import type { Person } from '../../terms/person.ts'

export type WrittenNote = { key: string; itemId: number; kind: SeriesNote['kind']; reason: string }

/**
 * Adds a note to a series; the rules read it, and the inspection state follows. Throws Refusal where the note changes nothing:
 * only a discontinued series begins again, only one without the wish gets it, only one with it loses it.
 */
export async function noteSeries(
  db: Db,
  manager: Person,
  supplierId: number,
  { key, itemId, kind, reason }: WrittenNote,
): Promise<number> {
  const kept = reason.trim()
  if (kept === '' || kept.length > lengths.reason) throw new Refusal('invalid', 'series/reason', {}, 'reason')
  const input = { itemId, kind, reason: kept }
  const sent = { key, person: manager, act: 'series.noted' as const, subject: `supplier/${supplierId}`, input }
  return db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'note-series')
    const { made } = await once(tx, sent, async () => {
      const { switching } = (await switchingOf(tx, { supplierId, itemId })) ?? {}
      if (!switching?.verdicts.length) throw new Refusal('missing', 'series/missing', {})
      if (!possibleNotes(switching).includes(kind)) throw new Refusal('conflict', 'series/moved-on', {})
      const [added] = await tx
        .insert(seriesNotes)
        .values({ supplierId, itemId, kind, reason: kept, notedBy: manager.id })
        .returning({ id: seriesNotes.id })
      if (!added) throw new Error('the note was not added')
      const told = { itemId, kind, reason: kept, inspection: switching.inspection }
      await record(tx, manager, 'series.noted', `supplier/${supplierId}`, told)
      return added.id
    })
    return made
  })
}
