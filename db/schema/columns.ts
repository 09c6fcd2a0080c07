// Columns that tables of every kind have.
import { timestamp } from 'drizzle-orm/pg-core'

/** A moment, with its zone. */
export const instant = () => timestamp({ withTimezone: true, mode: 'date' })
