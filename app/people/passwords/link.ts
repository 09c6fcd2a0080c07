// Links that work once: to make the first manager, to choose a new password, to make a manager where none is left.
import { randomBytes } from 'node:crypto'
import { and, eq, gt, isNull, sql } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { type linkPurpose, oneTimeLinks } from '../../../db/schema/people.ts'
import { Refusal } from '../../kit/refusal.ts'
import { hashOf } from '../sessions/session.ts'

export type LinkPurpose = (typeof linkPurpose.enumValues)[number]

/** How long a link works. The set-up link waits in a console's output; the others are handed over by somebody. */
export const HOURS = { 'set-up': 7 * 24, 'new-password': 24, 'new-manager': 1 } as const

/** Returns the token of a new link, which is kept nowhere. `personId`: whose new password it is for, and nobody else's link. */
export async function makeLink(
  tx: Tx,
  { purpose, personId, hours }: { purpose: LinkPurpose; personId?: number; hours: number },
): Promise<string> {
  const token = randomBytes(24).toString('base64url')
  const expiresAt = sql`now() + make_interval(hours => ${hours}::int)`
  await tx.insert(oneTimeLinks).values({ tokenHash: hashOf(token), purpose, personId: personId ?? null, expiresAt })
  return token
}

/** The path that a token opens. */
export function pathOfLink(purpose: LinkPurpose, token: string): string {
  return `/${purpose}/${token}`
}

/** Refuses (missing) a token that was used, is too old, or is for something else. */
export async function checkLink(db: Db, purpose: LinkPurpose, token: string): Promise<{ personId: number | null }> {
  const [link] = await db.select().from(oneTimeLinks).where(usable(purpose, token))
  if (!link) throw new Refusal('missing', 'link/used-up', { purpose })
  return link
}

/** The same, and uses it up: of two who send it at once one goes on. */
export async function useLink(tx: Tx, purpose: LinkPurpose, token: string): Promise<{ personId: number | null }> {
  const [link] = await tx.update(oneTimeLinks).set({ usedAt: sql`now()` }).where(usable(purpose, token)).returning()
  if (!link) throw new Refusal('missing', 'link/used-up', { purpose })
  return link
}

/** Ends what is left of a person's links. */
export async function endLinksOf(tx: Tx, personId: number): Promise<void> {
  await tx
    .update(oneTimeLinks)
    .set({ usedAt: sql`now()` })
    .where(and(eq(oneTimeLinks.personId, personId), isNull(oneTimeLinks.usedAt)))
}

/** Once somebody has an account, the links on the consoles of other replicas end too. */
export async function endSetUpLinks(tx: Tx): Promise<void> {
  await tx
    .update(oneTimeLinks)
    .set({ usedAt: sql`now()` })
    .where(and(eq(oneTimeLinks.purpose, 'set-up'), isNull(oneTimeLinks.usedAt)))
}

function usable(purpose: LinkPurpose, token: string) {
  return and(
    eq(oneTimeLinks.tokenHash, hashOf(token)),
    eq(oneTimeLinks.purpose, purpose),
    isNull(oneTimeLinks.usedAt),
    gt(oneTimeLinks.expiresAt, sql`now()`),
  )
}
