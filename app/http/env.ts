// What every handler finds in its context.
import type { Db } from '../../db/client.ts'
import type { Person } from '../people/person.ts'

export type Firm = { name: string; example: boolean }

export type Env = {
  Variables: {
    db: Db
    /** who is signed in; undefined on the pages that need no account (`readerOf(c)` where there must be one) */
    person: Person | undefined
    /** undefined before the first run is finished */
    firm: Firm | undefined
    currency: string
    requestId: string
    /** people come by https: the session's cookie is bound to it */
    https: boolean
    /** `npm run demo`: anybody on this machine may be one of the example's people, who sign with this password */
    demo: { password: string } | undefined
    /** fills an empty database with the example scenario */
    plantExample: (db: Db) => Promise<void>
  }
}
