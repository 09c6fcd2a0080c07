// What every handler finds in its context.
import type { Db } from '../../db/client.ts'
import type { Person } from '../people/person.ts'

export type Firm = { name: string; example: boolean }

export type Env = {
  Variables: {
    db: Db
    /** who is signed in; undefined on the pages that need no account */
    person: Person | undefined
    /** undefined before the first run is finished */
    firm: Firm | undefined
    currency: string
    requestId: string
  }
}
