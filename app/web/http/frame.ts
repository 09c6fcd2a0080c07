// What every page of a signed-in reader is told.

import type { Context } from 'hono'
import type { Firm } from '../../people/firm.ts'
import { rolesOf } from '../../people/person.ts'
import type { Done } from '../../terms/done.ts'
import type { Person, Role } from '../../terms/person.ts'
import { takeDone } from './done.ts'
import type { Env } from './env.ts'
import { viewerOf } from './session.ts'

/** `roles`: those in which the reader may act. `done`: what the page before left to be said. */
export type SignedInFrame = {
  viewer: Person
  roles: Role[]
  firm: Firm | undefined
  done: Done | undefined
  currency: string
}

export function frameOf(c: Context<Env>): SignedInFrame {
  const viewer = viewerOf(c)
  return { viewer, roles: rolesOf(viewer), firm: c.var.firm, done: takeDone(c), currency: c.var.currency }
}
