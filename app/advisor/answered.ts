// The advisor's question with all that its page says in answer.
import type { LeastSensible } from './least-sensible.ts'
import type { Question } from './question.ts'
import type { Compared } from './tasks.ts'

export type AnsweredQuestion = Compared & { question: Question; leastSensible: LeastSensible | undefined }
