// How numbers are said on pages: all formatting is here, and only here.
// Chances round to the nearest but never to none or all unless exact; bounds round outwards; the minus is U+2212.
import { Temporal } from 'temporal-polyfill'

const grouped = new Intl.NumberFormat('en', { maximumFractionDigits: 0 })
const oneDecimal = new Intl.NumberFormat('en', { minimumFractionDigits: 1, maximumFractionDigits: 1 })
const twoDecimals = new Intl.NumberFormat('en', { minimumFractionDigits: 2, maximumFractionDigits: 2 })
const upToThreeDecimals = new Intl.NumberFormat('en')
const minus = '\u2212'

/** A whole number: 1,000,000. */
export function whole(value: number): string {
  return grouped.format(value).replace('-', minus)
}

/** A count with its noun: 1 cord, 480 cords, 0 cords. */
export function counted(value: number, noun: string, plural = `${noun}s`): string {
  return `${whole(value)} ${value === 1 ? noun : plural}`
}

/**
 * A chance as a natural frequency: 59 of 100, 2 of 10,000, 9,998 of 10,000, fewer than 1 of 1,000,000.
 * `against` is the chance of the contrary where it was computed by itself; it keeps a chance a hair below 1 from being said as certain.
 * `wished`, the most that was wished for: a chance above it is rounded up, never onto it: 51 of 1,000 where 5 of 100 were wished.
 */
export function frequency(chance: number, against = 1 - chance, wished = 1): string {
  if (chance === 0) return '0 of 100'
  if (against === 0) return '100 of 100'
  const breach = breaks(chance, wished)
  for (const scale of [100, 1_000, 10_000, 100_000, 1_000_000]) {
    const hits = chance <= 0.5 ? Math.round(chance * scale) : scale - Math.round(against * scale)
    if (breach && hits > 0 && hits / scale <= wished)
      return `${whole(roundedUp(chance * scale * 10))} of ${whole(scale * 10)}`
    if (hits > 0 && hits < scale) return `${whole(hits)} of ${whole(scale)}`
  }
  return chance < 0.5 ? 'fewer than 1 of 1,000,000' : 'more than 999,999 of 1,000,000'
}

/** A chance under a belief that leaves everything possible: it is never none or all, however near a number may come. */
export function believed(chance: number, against = 1 - chance): string {
  return frequency(Math.max(chance, Number.MIN_VALUE), Math.max(against, Number.MIN_VALUE))
}

/**
 * The number alone of a frequency "of 100", for a column that says so: 59, fewer than 1, more than 99; 0 and 100 only if exact.
 * `wished` as above: 5.1 where 5 were wished and 5.04 are what it is.
 */
export function perHundred(chance: number, against = 1 - chance, wished = 1): string {
  if (chance === 0) return '0'
  if (against === 0) return '100'
  const hits = Math.round(chance * 100)
  if (breaks(chance, wished) && hits / 100 <= wished) return String(roundedUp(chance * 1000) / 10)
  if (hits === 0) return 'fewer than 1'
  if (hits === 100) return 'more than 99'
  return whole(hits)
}

/** Whether a chance is above what was wished; the last digits of the arithmetic are no breach. */
function breaks(chance: number, wished: number): boolean {
  return chance > wished * (1 + 1e-12)
}

/** Up to a whole number, where the last digits of the arithmetic do not push an exact one further. */
function roundedUp(value: number): number {
  return Math.ceil(Number(value.toPrecision(12)))
}

/** An expected number of cords: 78, 2.9, less than 0.1; whole only if exact below 10. */
export function expected(value: number): string {
  const exact = Number(value.toPrecision(13)) // exactly one cord may come as 0.9999999999999999
  if (Number.isInteger(exact)) return whole(exact)
  if (value < 0.05) return 'less than 0.1'
  return value < 9.95 ? oneDecimal.format(value) : whole(value)
}

/** Hours of work, rounded up to a tenth: 3.8 h. */
export function hoursAtMost(hours: number): string {
  return `${oneDecimal.format(roundedUp(hours * 10) / 10)} h`
}

/** A chance or share as a percentage with three digits: 59.3 %, 0.024 %; never 0 % or 100 % unless exact. */
export function percent(fraction: number): string {
  const text = threeDigits(fraction, 'halfExpand')
  return text === '100' && fraction < 1 ? 'more than 99.9 %' : `${text} %`
}

/** An upper bound on a share, rounded up so that it still covers: 6.06 %. */
export function percentAtMost(fraction: number): string {
  return `${threeDigits(fraction, 'ceil')} %`
}

/** An upper bound on a share as a natural frequency, rounded up: 61 of 1,000; finer where it is below 1 of 1,000. */
export function perThousandAtMost(fraction: number): string {
  const scale = fraction < 0.001 && fraction > 0 ? 1_000_000 : 1_000
  return `${whole(roundedUp(fraction * scale))} of ${whole(scale)}`
}

/** A lower bound on a share, rounded down so that it still covers: to 0 where it is below a thousandth of a percent. */
export function percentAtLeast(fraction: number): string {
  return fraction < 1e-5 ? '0 %' : `${threeDigits(fraction, 'floor')} %`
}

/** A wanted number of 100 with every digit it was asked with: 95, 97.5. */
export function wantedOfHundred(fraction: number): string {
  return String(Number((fraction * 100).toPrecision(12)))
}

/** What a wanted number of 100 leaves: 5 for 0.95. */
export function riskOfHundred(fraction: number): string {
  return wantedOfHundred(Number((1 - fraction).toPrecision(12)))
}

/** A confidence such as 0.95 with every digit it was asked with: 95 %. */
export function confidenceOf(confidence: number): string {
  return `${wantedOfHundred(confidence)} %`
}

/** A margin from its raw digits, none rounded away: +2.4 dB, −0.04 dB, 0.0 dB. */
export function decibels(digits: string): string {
  const unsigned = digits.replace(/^[-+\u2212]/, '')
  if (!/[1-9]/.test(unsigned)) return `${unsigned} dB`
  return `${/^[-\u2212]/.test(digits) ? minus : '+'}${unsigned} dB`
}

/** A computed margin to two decimals, as charts and their tables say it: +5.32 dB. */
export function decibelsToHundredth(value: number): string {
  return decibels(value.toFixed(2))
}

/** A number with two decimals: 1.25. */
export function hundredths(value: number): string {
  return (Math.round(value * 100) / 100).toFixed(2)
}

/** A probability of a test, with three decimals: 0.031, less than 0.001. */
export function thousandths(value: number): string {
  return value < 0.001 ? 'less than 0.001' : value.toFixed(3)
}

/** A number at a tick of an axis, with the digits it needs: 0.05, −2. */
export function atTick(value: number): string {
  return String(Number(value.toPrecision(6))).replace('-', minus)
}

/** A share at a tick of an axis in percent: 2.5 for 0.025. */
export function percentAtTick(fraction: number): string {
  return atTick(fraction * 100)
}

/** Cents at a tick of an axis, in whole units of the currency and what is left: 1,250. */
export function moneyAtTick(cents: number): string {
  return upToThreeDecimals.format(cents / 100).replace('-', minus)
}

/** An accuracy from its raw digits: ±1.2 dB. */
export function accuracy(digits: string): string {
  return `±${digits} dB`
}

/** An amount of whole cents, or an expected one to the nearest cent: EUR 1,234.50. */
export function money(cents: number, currency: string): string {
  return `${currency} ${amount(cents)}`
}

/** An amount alone, where a head or caption names the currency: 1,234.50. */
export function amount(cents: number): string {
  return twoDecimals.format(Math.round(cents) / 100).replace('-', minus)
}

/** A day in the firm's time zone: 25 November 2026. A day that is no moment, such as 2027-03-31, is the same everywhere. */
export function day(instant: Date | string): string {
  const zoneless = typeof instant === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(instant)
  return (zoneless ? utc : zone).day.format(new Date(instant))
}

/** A moment in the firm's time zone, which is named: 25 November 2026, 14:05 CET. */
export function moment(instant: Date | string): string {
  return `${day(instant)}, ${zone.time.format(new Date(instant))}`
}

/** Set once, at the start: the zone of every day and time on a page. Throws RangeError for one that is not known. */
export function setTimeZone(name: string): void {
  zone = formatsIn(name)
}

/** How long something waits, in days of the calendar in the firm's time zone: today, since yesterday, 9 days. */
export function waited(since: Date, now: Date): string {
  const { days } = dayAt(since).until(dayAt(now))
  if (days < 1) return 'today'
  return days === 1 ? 'since yesterday' : counted(days, 'day')
}

/** The day of a moment in the firm's time zone, as a field takes it: 2026-11-27. */
export function dateOf(instant: Date): string {
  return dayAt(instant).toString()
}

/** When a day such as 2026-11-27 begins in the firm's time zone, or one so many days after it: at 1:00 where the clock skips midnight. */
export function startOfDay(date: string, daysAfter = 0): Date {
  const begins = Temporal.PlainDate.from(date).add({ days: daysAfter }).toZonedDateTime(zone.name)
  return new Date(begins.epochMilliseconds)
}

function dayAt(instant: Date): Temporal.PlainDate {
  return Temporal.Instant.fromEpochMilliseconds(instant.getTime()).toZonedDateTimeISO(zone.name).toPlainDate()
}

/** How long something lasted, in the largest unit of which there are about two or more: 90 seconds, 2 hours. */
export function lasting(seconds: number): string {
  const units = [
    { noun: 'day', seconds: 86_400 },
    { noun: 'hour', seconds: 3600 },
    { noun: 'minute', seconds: 60 },
  ]
  const unit = units.find((unit) => Math.round(seconds / unit.seconds) >= 2) ?? { noun: 'second', seconds: 1 }
  return counted(Math.round(seconds / unit.seconds), unit.noun)
}

function formatsIn(timeZone: string) {
  return {
    name: timeZone,
    day: new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone }),
    time: new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZoneName: 'short', timeZone }),
  }
}

const utc = formatsIn('UTC')
let zone = utc

function threeDigits(fraction: number, roundingMode: 'ceil' | 'floor' | 'halfExpand'): string {
  // The style percent moves the point in decimal: 0.07 × 100 in binary is 7.000000000000001 and would be rounded up.
  const format = new Intl.NumberFormat('en', { style: 'percent', maximumSignificantDigits: 3, roundingMode })
  // an exact end such as 95 % may come as 0.9500000000000001: a bound is not pushed out by the last digits of the arithmetic
  return format.format(Number(fraction.toPrecision(13))).replace('%', '')
}
