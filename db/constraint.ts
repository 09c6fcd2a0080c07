// Which of the database's own rules a change has met.
import { DrizzleQueryError } from 'drizzle-orm'
import postgres from 'postgres'

/** Name of the constraint or unique index that refused a statement; undefined for any other error. */
export function brokenConstraint(error: unknown): string | undefined {
  const cause = error instanceof DrizzleQueryError ? error.cause : error
  return cause instanceof postgres.PostgresError ? cause.constraint_name : undefined
}
