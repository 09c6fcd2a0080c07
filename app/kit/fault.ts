// Sorts what was thrown and was no refusal, and keeps what people typed out of the log.

export type Fault = {
  kind: 'refused-by-the-record' | 'busy' | 'full' | 'short-of-memory' | 'unknown'
  forTheLog: { code?: string | undefined; constraint?: string | undefined; error?: string | undefined }
}

/** Classes and codes of PostgreSQL and postgres.js: integrity (23…) against time, locks and lost connections. */
const BUSY =
  /^(08...|25P03|57014|55P03|57P0[1235]|40001|40P01|53300|CONNECTION_\w+|CONNECT_TIMEOUT|ECONNREFUSED|ECONNRESET|ENOENT|EPIPE|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|ENOTFOUND|EAI_AGAIN)$/

/**
 * Drizzle's own message holds the statement with its parameters, so a name or a password hash: only the code and the
 * constraint of a database error are logged. Of any other error the stack is.
 */
export function faultOf(error: unknown): Fault {
  const root = rootOf(error)
  const code = textIn(root, 'code')
  const constraint = textIn(root, 'constraint_name')
  if (code === undefined)
    return { kind: 'unknown', forTheLog: { error: root instanceof Error ? root.stack : String(root) } }
  if (BUSY.test(code)) return { kind: 'busy', forTheLog: { code } }
  if (code === '53100' || code === 'ENOSPC') return { kind: 'full', forTheLog: { code } }
  if (code === '53200') return { kind: 'short-of-memory', forTheLog: { code } }
  if (/^23...$/.test(code)) return { kind: 'refused-by-the-record', forTheLog: { code, constraint } }
  return { kind: 'unknown', forTheLog: { code, constraint, error: stackWithoutMessage(root) } }
}

function rootOf(error: unknown): unknown {
  return error instanceof Error && error.cause !== undefined ? rootOf(error.cause) : error
}

function textIn(value: unknown, key: string): string | undefined {
  if (typeof value !== 'object' || value === null || !(key in value)) return undefined
  const found: unknown = Reflect.get(value, key)
  return typeof found === 'string' ? found : undefined
}

function stackWithoutMessage(error: unknown): string | undefined {
  if (!(error instanceof Error)) return undefined
  return error.stack
    ?.split('\n')
    .filter((line) => line.startsWith('    at '))
    .join('\n')
}
