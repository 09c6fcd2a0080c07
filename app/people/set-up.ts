// The first run: a link printed once on the console, and the first manager made from it.
import { randomBytes } from 'node:crypto'
import { and, eq, isNull, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { firms, people, setUpLinks } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { insertPerson } from './add.ts'
import { hashPassword } from './password.ts'
import type { Person } from './person.ts'
import { hashOf, openSession } from './session.ts'

/** Whoever reads the console may set the service up: a new key for an empty database, which ends every earlier one. Undefined where people are. */
export async function offerSetUp(db: Db): Promise<string | undefined> {
  return db.transaction(async (tx) => {
    if (await anybody(tx)) return undefined
    const token = randomBytes(24).toString('base64url')
    await tx.update(setUpLinks).set({ usedAt: sql`now()` }).where(isNull(setUpLinks.usedAt))
    await tx.insert(setUpLinks).values({ tokenHash: hashOf(token) })
    return token
  })
}

/** Refuses a key that was used, or that a later start replaced. */
export async function checkSetUpKey(db: Db, token: string): Promise<void> {
  const [link] = await db.select().from(setUpLinks).where(unused(token))
  if (!link) throw new Refusal('missing', expired)
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
  const passwordHash = await hashPassword(password)
  return db.transaction(async (tx) => {
    const used = await tx.update(setUpLinks).set({ usedAt: sql`now()` }).where(unused(token)).returning()
    if (used.length === 0 || (await anybody(tx))) throw new Refusal('missing', expired)
    if (firm !== undefined) await tx.insert(firms).values({ name: firm, example: false })
    const id = await insertPerson(tx, { name, role: 'manager', passwordHash })
    const manager: Person = { id, name, role: 'manager', separateDuties: true }
    await record(tx, manager, 'person.added', `people/${id}`, { name, role: 'manager', by: 'set-up link' })
    return openSession(tx, id)
  })
}

const expired = 'This set-up link was used, or a later start printed another one: look at the console of the service'

function unused(token: string) {
  return and(eq(setUpLinks.tokenHash, hashOf(token)), isNull(setUpLinks.usedAt))
}

async function anybody(tx: Tx): Promise<boolean> {
  const found = await tx.select({ id: people.id }).from(people).limit(1)
  return found.length > 0
}
