// The first run: a link printed once on the console, and the first manager made from it.
import { sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { firms, people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { endSetUpLinks, HOURS, makeLink, useLink } from '../passwords/link.ts'
import { refuseGuessable } from '../passwords/new-password.ts'
import { hashPassword } from '../passwords/password.ts'
import { openSession } from '../sessions/session.ts'
import { insertPerson } from './add.ts'
import { checkedName } from './name.ts'

/** Who reads a console may set the service up: a new key for an empty database; those of other replicas work too. Undefined where people are. */
export async function offerSetUp(db: Db): Promise<string | undefined> {
  return db.transaction(async (tx) => {
    if (await anybody(tx)) return undefined
    return makeLink(tx, { purpose: 'set-up', hours: HOURS['set-up'] })
  })
}

export type FirstManager = { name: string; password: string }

/**
 * Makes the first manager and the firm, uses the link up, and opens the manager's session; returns its token. For the
 * example (`firm` undefined) the firm comes with the scenario, which is planted in the same transaction.
 * Throws Refusal missing for a link that was used: two who send it at once, one is first manager.
 */
export async function setUp(
  db: Db | Tx,
  token: string,
  { name, password, firm }: FirstManager & { firm: string | undefined },
): Promise<string> {
  const kept = checkedName(name)
  refuseGuessable(password, { name: kept, field: 'password' })
  const passwordHash = await hashPassword(password)
  return db.transaction(async (tx) => {
    await tx.execute(sql`select pg_advisory_xact_lock(hashtext('set-up'))`) // of two keys sent at once, one makes the first manager
    await useLink(tx, 'set-up', token)
    if (await anybody(tx)) throw new Refusal('missing', 'firm/set-up-before', {})
    await endSetUpLinks(tx)
    if (firm !== undefined) await tx.insert(firms).values({ name: firm, example: false })
    const id = await insertPerson(tx, { name: kept, role: 'manager', passwordHash })
    const manager: Person = { id, name: kept, role: 'manager', separateDuties: true }
    await record(tx, manager, 'person.added', `people/${id}`, { name: kept, role: 'manager', by: 'set-up link' })
    return openSession(tx, id)
  })
}

async function anybody(tx: Tx): Promise<boolean> {
  const found = await tx.select({ id: people.id }).from(people).limit(1)
  return found.length > 0
}
