// What every handler finds in its context.
import type { Db } from '../../../db/client.ts'
import type { Compute } from '../../compute/compute.ts'
import type { Run } from '../../kit/task.ts'
import type { FirstManager } from '../../people/accounts/set-up.ts'
import type { Firm } from '../../people/firm.ts'
import type { Person } from '../../terms/person.ts'

/** The scenario that an empty database can be filled with, and the names of its people, which nobody else may take before. */
export type Example = {
  /** uses the set-up link up: makes the first manager and plants the scenario, all or nothing; returns the manager's session */
  setUp: (token: string, manager: FirstManager) => Promise<string>
  names: readonly string[]
}

export type Env = {
  Variables: {
    db: Db
    /** who is signed in; undefined on the pages that need no account (`readerOf(c)` where there must be one) */
    person: Person | undefined
    /** the reader's password was typed by a manager, and another has to be chosen first */
    passwordTemporary: boolean
    /** undefined before the first run is finished */
    firm: Firm | undefined
    currency: string
    /** what takes long is worked out by it: see work.ts */
    compute: Compute
    /** the same for pages that may be refused to nobody: see shared.ts */
    forAll: Run
    requestId: string
    /** where the request comes from (see network.ts): an address, or the first half of one */
    network: string
    /** people come by https: the session's cookie is bound to it */
    https: boolean
    /** `npm run demo`: anybody on this machine may be one of the example's people, who sign with this password */
    demo: { password: string } | undefined
    example: Example
  }
}
