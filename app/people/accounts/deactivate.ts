// Takes an account out of use. The person stays in every record that names them.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { endLinksOf } from '../passwords/link.ts'
import { closeSessionsOf } from '../sessions/session.ts'
import { requireStanding } from '../standing.ts'
import { keepOneManager, lockManagers } from './managers.ts'

/**
 * A manager deactivates a person, whose sessions and links end at once.
 * Throws Refusal: forbidden for any other role; missing; conflict where it was done before, or nobody would be manager.
 */
export async function deactivate(db: Db, manager: Person, id: number): Promise<void> {
  await db.transaction(async (tx) => {
    const managers = await lockManagers(tx)
    await requireStanding(tx, manager, 'deactivate-people')
    keepOneManager(managers, id)
    const [person] = await tx.select().from(people).where(eq(people.id, id)).for('no key update')
    if (!person) throw new Refusal('missing', 'person/missing', {})
    if (!person.active) throw new Refusal('conflict', 'person/deactivated-before', { name: person.name })
    await tx.update(people).set({ active: false }).where(eq(people.id, id))
    await closeSessionsOf(tx, id)
    await endLinksOf(tx, id)
    await record(tx, manager, 'person.deactivated', `people/${id}`, { name: person.name, role: person.role })
  })
}
