// Where to go after signing in: a path of ours, never another site that somebody wrote into the address.
import { unwantedIn } from '../../kit/characters.ts'

/**
 * The path to lead back to, fit for a Location header: letters beyond ASCII are percent-encoded. /lots where none is named or
 * it leads elsewhere; / where it holds characters that no header carries.
 */
export function ownPath(back: unknown): string {
  if (typeof back !== 'string' || !/^\/(?![/\\])[^\\]*$/u.test(back)) return '/lots'
  if (/\s/.test(back) || unwantedIn(back, { lines: false }) !== undefined) return '/'
  return back.replace(/[^\x21-\x7e]+/gu, encodeURIComponent)
}
