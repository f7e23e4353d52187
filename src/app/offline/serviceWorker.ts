/**
 * Keeps every file of the built program in the browser, so that it opens without a network. It serves that set of files
 * until the page asks the newer one to take over: parts of two builds are never mixed.
 */
import { cleanupOutdatedCaches, type PrecacheEntry, precacheAndRoute } from 'workbox-precaching';

/** Written in by tools/offlinePlugin.mjs: each built file, with a hash of its content where its name carries none. */
declare const __BUILT_FILES__: PrecacheEntry[];

/** What this file needs of the global scope of a service worker; its own library of types excludes that of pages. */
interface Scope {
  skipWaiting(): Promise<void>;
  addEventListener(type: 'message', listen: (event: MessageEvent) => void): void;
}
const scope = self as unknown as Scope;

// `?demo=` and the like choose what the page opens, not which page it is.
precacheAndRoute(__BUILT_FILES__, { ignoreURLParametersMatching: [/.*/] });
cleanupOutdatedCaches();

scope.addEventListener('message', (event) => {
  if (event.data === 'takeOver') void scope.skipWaiting();
});
