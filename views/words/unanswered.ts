// Why a question has no answer for now, in a sentence.
import type { WhyUnanswered } from '../../app/compute/compute.ts'

export const unansweredWords: Record<WhyUnanswered, string> = {
  gone: 'The browser that asked has gone',
  late: 'That was not worked out within five seconds, because too much else is being worked out. Load the page again in a moment.',
  'own-questions':
    'Several of your questions are being worked out or wait for it. Wait for their answers, then load this page again.',
  'many-questions': 'Too many questions wait to be worked out. Load the page again in a moment.',
}
