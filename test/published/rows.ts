// Published and recomputed values, one row each with its source; a test takes the rows whose names begin alike.
import { readFileSync } from 'node:fs'
import { z } from 'zod'

const rows = z.array(
  z.object({
    id: z.string(),
    source: z.string(),
    status: z.string().default(''),
    input: z.unknown(),
    recomputed: z.unknown(),
  }),
)

/** Rows of check_values_history.json by the beginning of their id, what they hold parsed by the schemas. */
export function publishedRows<Input, Value>(beginning: string, input: z.ZodType<Input>, recomputed: z.ZodType<Value>) {
  const text = readFileSync(new URL('check_values_history.json', import.meta.url), 'utf8')
  return rows
    .parse(JSON.parse(text))
    .filter(({ id }) => id.startsWith(beginning))
    .map((row) => ({ ...row, input: input.parse(row.input), recomputed: recomputed.parse(row.recomputed) }))
}
