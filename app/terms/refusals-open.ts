// What stands against a question of an open page, by the field that it was typed into.

type None = Record<never, never>

export type QuestionRefusals = {
  'question/lot-size': None
  'question/too-many': None
  'question/confidence': None
  'question/good': { tooMany: number | undefined }
  'question/risk': None
  'question/percent': None
  'question/own-plan': None
  'proof/tested': None
  'proof/found': None
  'proof/confidence': None
  'proof/claim': None
}
