// A new supplier in the register.

import type { Db } from '../../db/client.ts'
import { suppliers } from '../../db/schema/register.ts'
import { record } from '../audit/record.ts'
import { refuseUnwanted } from '../kit/characters.ts'
import { lengths } from '../kit/limits.ts'
import { Refusal } from '../kit/refusal.ts'
import { once } from '../people/once.ts'
import { requireStanding } from '../people/standing.ts'
import type { Person } from '../terms/person.ts'

/**
 * Enters a supplier; two of one name, whatever their capitals, would split one history in two and are refused.
 * Returns its number; the same form sent again returns the same number.
 */
export async function registerSupplier(
  db: Db,
  officer: Person,
  { key, name }: { key: string; name: string },
): Promise<number> {
  const called = name.trim()
  if (called === '' || called.length > lengths.name) throw new Refusal('invalid', 'supplier/name-length', {}, 'name')
  refuseUnwanted('name', called)
  const sent = {
    key,
    person: officer,
    act: 'supplier.registered' as const,
    subject: 'supplier',
    input: { name: called },
  }
  return db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'register-supplier')
    const { made } = await once(tx, sent, async () => {
      const [added] = await tx
        .insert(suppliers)
        .values({ name: called, createdBy: officer.id })
        .onConflictDoNothing()
        .returning({ id: suppliers.id })
      if (!added) throw new Refusal('invalid', 'supplier/name-taken', { name: called }, 'name')
      await record(tx, officer, 'supplier.registered', `supplier/${added.id}`, { name: called })
      return added.id
    })
    return made
  })
}
