// Two ends a cord, and spools: why a share of a lot says little of cords.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { TerminationModel } from '../../app/history/replay/sheet.ts'
import { HundredLots } from '../charts/hundred-lots.tsx'
import { Terminations } from '../charts/terminations.tsx'
import { counted, frequency, hundredths, percent as percentage, thousandths, whole } from '../figures.ts'

export function MakingPart({ making }: { making: TerminationModel }) {
  return (
    <section>
      <h2>Two plugs a cord</h2>
      <figure class="chart">
        <Terminations points={making.points} marked={making} />
        <figcaption>
          {percentage(making.cords)} of these cords did not conform. Where the cable is sound and each plug is fixed by
          itself, that is {percentage(making.termination)} of the plugs: one small fault in the work shows nearly twice.
        </figcaption>
      </figure>
    </section>
  )
}

export function SpoolPart({ report }: { report: PercentageReport }) {
  const { spools, remainders, percent } = report
  const { lotSize, sampleSize, fraction, alike, oneByOne, estimated } = remainders
  const share = percentage(fraction.value)
  return (
    <section>
      <h2>A spool and a cord</h2>
      <p>
        Of a lot of {whole(lotSize)}, {percent} % ({whole(sampleSize)}) are tested and all conform;{' '}
        {fraction.own ? `${share} do not on average, as in these lots` : `${share} do not on average, assumed`}. How
        often are all the others clean?
      </p>
      <CleanRest id="alike" how="Sections of one spool, all alike" chance={alike} />
      <CleanRest id="one-by-one" how="Cords that fail one by one" chance={oneByOne} />
      <p>
        A filled square is a lot, of a hundred, whose untested rest is clean.
        {estimated !== undefined && ` With the correlation found in these spools: ${frequency(estimated)}.`}
      </p>
      <p>{correlationIn(spools)}</p>
      <p>
        If cords fail one by one at a steady rate, the tested ones tell about the rate, not about any particular cord
        that was not tested.
      </p>
    </section>
  )
}

function CleanRest({ id, how, chance }: { id: string; how: string; chance: number }) {
  return (
    <figure class="chart">
      <figcaption>
        {how}: {frequency(chance)}.
      </figcaption>
      <HundredLots
        id={id}
        title={`${how}: lots whose rest is clean`}
        description={`${frequency(chance)} lots with a clean sample are clean throughout`}
        chance={chance}
      />
    </figure>
  )
}

function correlationIn({ spools, cords, correlation }: PercentageReport['spools']): string {
  if (!correlation) return 'No recorded cord carries a spool mark, so how alike cords of one spool are is not known.'
  const of = `${counted(cords, 'cord')} of ${counted(spools, 'spool')}`
  if (correlation.kind === 'no information')
    return `${of} carry a mark, and cannot tell how alike cords of one spool are (${correlation.reason}).`
  const chance =
    correlation.pValue < 0.05
      ? `spools differ more than by chance (one-sided test of Tarone, p = ${thousandths(correlation.pValue)})`
      : `spools differ no more than chance may make them (one-sided test of Tarone, p = ${thousandths(correlation.pValue)})`
  return `${of} carry a mark: the correlation between two cords of a spool is estimated as ${hundredths(correlation.likelihood)} (maximum likelihood, beta-binomial), and ${chance}. Lots and makers that differ raise it too.`
}
