// The address of an open page: no question in it, one that needs correcting, or one that can be answered.
import type { Context } from 'hono'
import type { z } from 'zod'
import { sentencesOf } from '../../../views/words/refusals.ts'
import type { QuestionReading } from '../../advisor/typed.ts'
import type { Problems } from '../../kit/problems.ts'
import type { Env } from '../http/env.ts'
import { readQuery } from '../http/read.ts'

type Texts = Record<string, string>

/** `asked`: the texts to show in the form, typed or usual. */
export type Asked<T, Q> =
  | { kind: 'none'; asked: T }
  | { kind: 'problems'; asked: T; problems: Problems }
  | { kind: 'question'; asked: T; question: Q }

/** Without any field of the form in the address there is no question, and the form stands as it is before anybody asked. */
export function ask<T extends Texts, Q>(
  c: Context<Env>,
  fields: z.ZodObject & z.ZodType<T>,
  from: (asked: T) => QuestionReading<Q>,
): Asked<T, Q> {
  const unasked = fields.parse({})
  if (!Object.keys(fields.shape).some((name) => c.req.query(name) !== undefined))
    return { kind: 'none', asked: unasked }
  const read = readQuery(c, fields)
  if (read.kind === 'unreadable')
    return { kind: 'problems', asked: { ...unasked, ...read.typed }, problems: read.problems }
  const asked = read.value
  const reading = from(asked)
  if (reading.kind === 'refused') return { kind: 'problems', asked, problems: sentencesOf(reading.causes) }
  return { ...reading, asked }
}
