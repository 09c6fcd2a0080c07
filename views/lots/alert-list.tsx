// What the work list warns of, above everything else: signals, weak plans, long waits.
import type { Alerts } from '../../app/desk/alerts.ts'
import type { SeriesSignal } from '../../app/history/signal-sums.ts'
import { counted, frequency, whole } from '../figures.ts'
import { riskAllowed } from '../plan/words.ts'
import { lotsInWords } from '../suppliers/between-lots.tsx'
import { inspectionsWords, inspectionWords, reasonWords } from '../suppliers/words.ts'
import { actWords } from '../words/lots.ts'

export function AlertList({ alerts: { rulings, signals, weakPlans, waits } }: { alerts: Alerts }) {
  if (rulings.length + signals.length + weakPlans.length + waits.length === 0) return null
  return (
    <section class="alerts" aria-label="Alerts">
      <ul>
        {rulings.map(({ lotId, supplier, undecided }) => (
          <li>
            <b>{undecided === 1 ? 'A cord that is' : 'Cords that are'} not decided.</b>{' '}
            <a href={`/lots/${lotId}`}>Lot {lotId}</a> from {supplier}: {counted(undecided, 'drawn cord')} gone or
            spoiled here; the manager rules.
          </li>
        ))}
        {signals.map((signal) => (
          <li>
            <a href={`/suppliers/${signal.supplier.id}`}>{signal.supplier.name}</a>, {signal.item.name}:{' '}
            {signalWords(signal)}
          </li>
        ))}
        {weakPlans.map(({ lotId, supplier, tooMany, acceptance, catchOf100 }) => (
          <li>
            <b>A weak plan.</b> <a href={`/lots/${lotId}`}>Lot {lotId}</a> from {supplier}: its plan lets{' '}
            {frequency(acceptance, 1 - acceptance, riskAllowed(catchOf100))} lots with {whole(tooMany)} nonconforming
            slip through, where the item wants {catchOf100} of 100 caught.
          </li>
        ))}
        {waits.map(({ lotId, supplier, act, days }) => (
          <li>
            <b>A long wait.</b> <a href={`/lots/${lotId}`}>Lot {lotId}</a> from {supplier} waits for{' '}
            {counted(days, 'day')} for {actWords[act].whose}: {actWords[act].waits.toLowerCase()}.
          </li>
        ))}
      </ul>
    </section>
  )
}

function signalWords({ point, differ, strict, notKnown }: SeriesSignal): string {
  const sentences: string[] = []
  if (differ) sentences.push(`${lotsInWords(differ)}: its lots differ more than one steady process lets them.`)
  if (point?.signal === 'above')
    sentences.push(
      `lot ${point.lotId} holds ${point.stopped ? 'at least ' : ''}${counted(point.found, 'nonconforming cord')} where at most ${whole(point.limits.upper)} were expected.`,
    )
  else if (point?.sumSignals)
    sentences.push(`with lot ${point.lotId} the cumulative sum shows a small rise that lasts.`)
  if (strict) sentences.push(`${inspectionWords[strict.inspection]}: ${reasonWords[strict.reason]}.`)
  if (notKnown)
    sentences.push(
      `how strictly it is inspected is not known since ${notKnown.lotId === undefined ? 'a manager’s note' : `lot ${notKnown.lotId}`}: ${inspectionsWords(notKnown.possible)} is possible.`,
    )
  const [first = '', ...more] = sentences
  return [first, ...more.map((each) => each.charAt(0).toUpperCase() + each.slice(1))].join(' ')
}
