/*
 * Every message there is: the bundler puts them at the head of this file (words-with-parts.ts). Fetched when a key is said
 * whose message came with no part that is here, so that nobody reads keys.
 */
export {};
