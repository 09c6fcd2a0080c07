// Gives an account back to somebody who was deactivated, with the role and the password that it had.
import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { requireStanding } from '../standing.ts'
import { lockManagers } from './managers.ts'

/** Throws Refusal: forbidden for any role but a manager; missing; conflict where the person is active. */
export async function reactivate(db: Db, manager: Person, id: number): Promise<void> {
  await db.transaction(async (tx) => {
    await lockManagers(tx)
    await requireStanding(tx, manager, 'reactivate-people')
    const [person] = await tx.select().from(people).where(eq(people.id, id)).for('no key update')
    if (!person) throw new Refusal('missing', 'person/missing', {})
    if (person.active) throw new Refusal('conflict', 'person/active', { name: person.name })
    await tx.update(people).set({ active: true }).where(eq(people.id, id))
    await record(tx, manager, 'person.reactivated', `people/${id}`, { name: person.name, role: person.role })
  })
}
