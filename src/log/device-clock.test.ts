import { describe, expect, it } from 'vitest';
import { byOneClock, inOwnClock } from '../core/clocked.js';
import { clocked, clockFor, DeviceClock, type Measured, measureClock, ownClock } from './device-clock.js';

const minute = 60_000;
/** Instants of one afternoon, by the server's clock. */
const at = (time: string): string => `2026-05-14T${time}.000Z`;
const fast: Measured = { ahead_ms: 43 * minute, measuredAt: at('15:00:00'), uncertain_ms: 20 };
const who = { device: 'phone-a' as never, by: 'tove' as never };
const partner = { device: 'phone-b', ahead_ms: 0, sure: true };

/** A press on the phone that is 43 minutes fast, at 14:30 in truth. */
const press = { ...who, happenedAt: at('15:13:00'), recordedAt: at('15:13:01') };

describe('measuring a clock against the server’s (Verifies: LOG-R32)', () => {
  it('takes what the server says as the middle of asking and hearing', () => {
    expect(measureClock(null, at('15:13:00'), at('14:30:01'), at('15:13:04'))).toEqual({
      ahead_ms: 43 * minute + 1_000,
      measuredAt: at('15:13:04'),
      uncertain_ms: 2_000,
    });
  });

  it('keeps a value that the next measurement agrees with, and takes another one when the clock was set', () => {
    const again = measureClock(fast, at('15:30:00'), at('14:47:00'), at('15:30:00'));
    expect(again?.ahead_ms).toBe(fast.ahead_ms);
    expect(measureClock(fast, at('15:30:00'), at('15:30:00'), at('15:30:00'))?.ahead_ms).toBe(0);
  });

  it('is off by a century at most; what says more is no clock, and no record carries it', () => {
    const century = 100 * 365.25 * 86_400_000;
    for (const ahead_ms of [century + 1, -century - 1, 6.5e13, 9e15]) {
      expect(DeviceClock.safeParse({ ahead_ms, measuredAt: at('15:00:00') }).success).toBe(false);
      const clock = { ahead_ms, measuredAt: at('15:13:00') };
      expect(clockFor(clock, at('15:13:00'), at('15:13:00'))).toBeUndefined();
    }
    expect(DeviceClock.safeParse({ ahead_ms: -century, measuredAt: at('15:00:00') }).success).toBe(true);
  });

  it('lets a quick answer put a slow one right', () => {
    const slow = measureClock(null, at('14:30:00'), at('14:30:00'), at('14:30:08'));
    expect(slow).toMatchObject({ ahead_ms: 4_000, uncertain_ms: 4_000 });
    expect(measureClock(slow, at('14:31:00'), at('14:31:00'), at('14:31:00'))?.ahead_ms).toBe(0);
  });

  it('says nothing by an answer that took too long, or over which the clock was set back', () => {
    expect(measureClock(null, at('14:30:00'), at('14:30:00'), at('14:30:11'))).toBeNull();
    expect(measureClock(fast, at('15:13:00'), at('14:30:00'), at('14:30:00'))).toBe(fast);
  });
});

describe('what a record says of the clock it was timed by (Verifies: LOG-R32)', () => {
  it('names it for what happened just then, not for a time that a person told', () => {
    expect(clockFor(fast, press.happenedAt, press.recordedAt)).toEqual({
      ahead_ms: fast.ahead_ms,
      measuredAt: fast.measuredAt,
    });
    expect(clockFor(fast, at('14:05:00'), press.recordedAt)).toBeUndefined();
    expect(clockFor(null, press.happenedAt, press.recordedAt)).toBeUndefined();
    expect(clocked({ ...press, happenedAt: at('14:05:00') })).toMatchObject({ byServer: at('14:05:00'), sure: true });
  });

  it('does not name a clock that was set back since it was measured, or not for a day', () => {
    expect(clockFor(fast, at('14:31:00'), at('14:31:00'))).toBeUndefined();
    const next = '2026-05-15T15:00:01.000Z';
    expect(clockFor(fast, next, next)).toBeUndefined();
    expect(ownClock('phone-a', fast, at('14:31:00'))).toEqual({ device: 'phone-a', ahead_ms: 0, sure: false });
  });
});

describe('an instant on another device (Verifies: TEST-R12, TEST-R13)', () => {
  it('is put right by what the record says, however late the record came in', () => {
    const one = clocked({ ...press, clock: fast, receivedAt: at('17:00:00') });
    expect(inOwnClock(one, partner)).toEqual({ at: at('14:30:00'), sure: true });
    expect(inOwnClock(one, { device: 'phone-c', ahead_ms: -3 * minute, sure: true }).at).toBe(at('14:27:00'));
  });

  it('stays to the millisecond on the device whose clock it was, and moves there when that clock is set', () => {
    const one = clocked({ ...press, clock: fast });
    expect(inOwnClock(one, { device: 'phone-a', ahead_ms: fast.ahead_ms + 700, sure: true }).at).toBe(press.happenedAt);
    expect(inOwnClock(one, { device: 'phone-a', ahead_ms: 0, sure: true }).at).toBe(at('14:30:00'));
  });

  it('is not sure when nobody has measured that clock, and is never after its arrival', () => {
    expect(clocked({ ...press, receivedAt: at('14:30:02') })).toMatchObject({ byServer: at('14:30:01'), sure: false });
    expect(clocked({ ...press, happenedAt: at('14:30:00'), recordedAt: at('14:30:01') })).toMatchObject({
      byServer: at('14:30:00'),
      sure: false,
    });
    // Set forward after it was measured as right.
    const right = { ahead_ms: 0, measuredAt: at('14:20:00') };
    expect(clocked({ ...press, clock: right, receivedAt: at('14:30:02') })).toMatchObject({ sure: false });
  });

  it('compares two instants of two devices by one clock', () => {
    const start = clocked({ ...press, clock: fast });
    const read = clocked({
      device: 'phone-b' as never,
      by: 'jonas' as never,
      happenedAt: at('14:38:30'),
      recordedAt: at('14:38:30'),
      clock: { ahead_ms: 0, measuredAt: at('14:20:00') },
    });
    expect(byOneClock(start, read)).toEqual([at('14:30:00'), at('14:38:30')]);
  });
});
