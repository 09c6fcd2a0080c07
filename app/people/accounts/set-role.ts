// Gives a person another role.

import { eq } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person, Role } from '../../terms/person.ts'
import { requireStanding } from '../standing.ts'
import { keepOneManager, lockManagers } from './managers.ts'

/**
 * A manager sets a person's role; it holds from the person's next request on. `seen` is the role that the manager's page
 * showed. Throws Refusal: forbidden for any other role; missing; conflict where the role was changed meanwhile, the
 * person is not active any more, or nobody would be manager.
 */
export async function setRole(db: Db, manager: Person, id: number, change: { seen: Role; role: Role }): Promise<void> {
  await db.transaction(async (tx) => {
    const managers = await lockManagers(tx)
    await requireStanding(tx, manager, 'set-role')
    if (change.role !== 'manager') keepOneManager(managers, id)
    const [person] = await tx.select().from(people).where(eq(people.id, id)).for('no key update')
    if (!person) throw new Refusal('missing', 'person/missing', {})
    if (!person.active) throw new Refusal('conflict', 'person/inactive', { name: person.name })
    if (person.role !== change.seen) throw new Refusal('conflict', 'person/role-changed', { name: person.name })
    if (person.role === change.role) return
    await tx.update(people).set({ role: change.role }).where(eq(people.id, id))
    await record(tx, manager, 'person.role-set', `people/${id}`, {
      name: person.name,
      from: person.role,
      to: change.role,
    })
  })
}
