// How a drawn cord that cannot be had is called, and what becomes of it.
import type { CordRuling, ResultKind } from '../../app/terms/cord.ts'

/** As a state of the cord begins. */
export const notHadWords: Record<Exclude<ResultKind, 'tested'>, string> = {
  missing: 'missing',
  untestable: 'cannot be tested',
  damaged: 'too damaged to test',
  gone: 'gone',
  spoiled: 'spoiled here',
  'no-cord': 'no cord in its place',
}

export const rulingWords: Record<CordRuling, string> = {
  reserve: 'the next reserve of the draw takes its place',
  nonconforming: 'it counts as not conforming',
}
