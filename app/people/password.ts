// Passwords, kept as argon2id hashes.
import { hash, verify } from '@node-rs/argon2'

/** argon2id is the library's own default; memory in KiB and passes lie above the least that OWASP names (19 MiB, 2 passes: from memory). */
const cost = { memoryCost: 32_768, timeCost: 3, parallelism: 1 }

export const SHORTEST_PASSWORD = 10

export function hashPassword(password: string): Promise<string> {
  return hash(password, cost)
}

/** False for a wrong password. Throws for a hash that cannot be read: that is damage, not a wrong password. */
export function matchesHash(passwordHash: string, password: string): Promise<boolean> {
  return verify(passwordHash, password)
}
