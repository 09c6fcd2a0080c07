// Passwords, kept as argon2id hashes. One gate for every hash of the process: two cores' worth of guesses stop nobody's page.
import { hash, verify } from '@node-rs/argon2'
import { gate, type Visitor } from './gate.ts'

/** argon2id is the library's own default; memory in KiB and passes lie above the least that OWASP names (19 MiB, 2 passes: from memory). */
const cost = { memoryCost: 32_768, timeCost: 3, parallelism: 1 }

const hashing = gate({ atOnce: 2, waiting: 20, ofOne: 15, ofStrangers: 16, rest: 25 })

export const stranger = (network: string): Visitor => ({ of: network, signedIn: false })
export const signedIn = (personId: number): Visitor => ({ of: `people/${personId}`, signedIn: true })

/** `asker`: the person or the network that waits for it. Throws Wait where too many do. */
export function hashPassword(password: string, asker = stranger('somewhere')): Promise<string> {
  return hashing(asker, () => hash(password, cost))
}

/**
 * False for a wrong password, and where there is none: that takes as long as a wrong one, so that the time tells nothing.
 * Throws for a hash that cannot be read: that is damage, not a wrong password.
 */
export async function matchesHash(passwordHash: string | null, password: string, asker: Visitor): Promise<boolean> {
  const kept = passwordHash ?? (await someHash)
  const right = await hashing(asker, () => verify(kept, password))
  return right && passwordHash !== null
}

const someHash = hashPassword('nobody has this one')
