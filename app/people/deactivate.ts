// Takes an account out of use. The person stays in every record that names them.
import { eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { keepOneManager } from './managers.ts'
import { type Person, requireRole } from './person.ts'
import { closeSessionsOf } from './session.ts'

/**
 * A manager deactivates a person, whose sessions end at once.
 * Throws Refusal: forbidden for any other role; missing; conflict where it was done before, or nobody would be manager.
 */
export async function deactivate(db: Db, manager: Person, id: number): Promise<void> {
  requireRole(manager, 'manager', 'deactivate people')
  await db.transaction(async (tx) => {
    await keepOneManager(tx, id)
    const [person] = await tx.select().from(people).where(eq(people.id, id)).for('update')
    if (!person) throw new Refusal('missing', 'There is no such person')
    if (!person.active) throw new Refusal('conflict', `${person.name} was deactivated before`)
    await tx.update(people).set({ active: false }).where(eq(people.id, id))
    await closeSessionsOf(tx, id)
    await record(tx, manager, 'person.deactivated', `people/${id}`, { name: person.name, role: person.role })
  })
}
