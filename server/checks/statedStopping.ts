import type { Profile } from '../profile/profile.ts';

/** What of the stopping distance from a speed in mm/s rests on values that the profile states; mm. */
export function statedStopping(profile: Profile, speed: number): number {
  const { reactionTime, deceleration } = profile.machine;
  const isStated = (key: string) => profile.source(`machine.${key}`) === 'profile';
  const reaction = isStated('reactionTime') ? speed * reactionTime : 0;
  const braking = isStated('deceleration') ? speed ** 2 / (2 * deceleration) : 0;
  return reaction + braking;
}
