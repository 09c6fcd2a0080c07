// The officer's correction of a lot, while no plan is frozen.
import type { Db } from '../../../db/client.ts'
import { record } from '../../audit/record.ts'
import { requireStanding } from '../../people/standing.ts'
import type { Person } from '../../terms/person.ts'
import { type AnnouncedLot, checkedAnnouncement } from '../record/announced.ts'
import { changeLot, lockLot, requireState, requireVersion } from '../record/lock.ts'
import { checkSize } from '../rules/packing.ts'

/**
 * Corrects what was announced, until the plan is frozen. `size` is the announced one: what was counted at the dock stays
 * as it was counted, and the cartons must then hold the counted cords.
 */
export async function correctLot(
  db: Db,
  officer: Person,
  lotId: number,
  { version, ...corrected }: AnnouncedLot & { version: number },
): Promise<void> {
  await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'correct-lot')
    const lot = await lockLot(tx, lotId)
    requireState(lot, 'correct')
    requireVersion(lot, version)
    checkSize(corrected.size)
    const { size: packed, ...kept } = await checkedAnnouncement(
      tx,
      { ...corrected, size: lot.size ?? corrected.size },
      lotId,
    )
    const size = corrected.size
    await changeLot(tx, lot, { ...kept, announcedSize: size })
    const { supplierId, itemId, announcedSize, cartons, cordsInCarton, productionMark, purchaseOrder, isolated } = lot
    const packing = { size: announcedSize, cartons, cordsInCarton }
    const { resubmissionOf, declaredSorting, replacementOf } = lot
    const { clauseNumber, clauseText } = lot
    const former = { clauseNumber, clauseText, resubmissionOf, declaredSorting, replacementOf }
    const before = { supplierId, itemId, ...packing, productionMark, purchaseOrder, isolated, ...former }
    await record(tx, officer, 'lot.corrected', `lot/${lotId}`, { before, after: { ...kept, size } })
  })
}
