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
  'question/quality-limit': None
  'question/level': None
  'question/severity': None
  'question/rate': { most: number }
  'question/test-cost': None
  'question/escape-cost': None
  'proof/tested': None
  'proof/found': None
  'proof/confidence': None
  'proof/claim': None
  'proof/planned': { tested: number }
  'proof/rejection': { most: number }
  'proof/first': { planned: number }
  'proof/accept': { rejectionNumber: number }
  'proof/first-reject': { rejectionNumber: number }
  'proof/second-sample': { acceptanceNumber: number; rejectionNumber: number }
  'proof/not-ended': { sampleSize: number; rejectionNumber: number }
}
