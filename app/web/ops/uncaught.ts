// What nobody caught: the log is told, the connections to the database are opened anew, and the process goes on.
import type { Logger } from 'pino'
import { faultOf } from '../../kit/fault.ts'

/**
 * An exception that came out of a timer or a socket cut something short, and nobody knows what. Every request has its own
 * state; what outlives requests is the pool of connections, so that is what cannot be trusted any more. A rejection that
 * says no more than that the database was away was settled where it belongs, and had nobody left to hear it.
 */
export function surviveUncaught(log: Logger, renew: () => void): void {
  process.on('uncaughtException', (error, origin) => {
    const { kind, forTheLog } = faultOf(error)
    const harmless = origin === 'unhandledRejection' && kind === 'busy'
    log[harmless ? 'error' : 'fatal']({ origin, ...forTheLog }, 'nobody caught this')
    if (!harmless) renew()
  })
}
