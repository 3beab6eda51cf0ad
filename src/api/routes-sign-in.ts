import type { Route } from './route.js';
import * as signing from './wire-sign-in.js';

/** Signing in, who may, and the devices they do it on: fetched with the screens for it. */
export const signInRoutes = {
  signIn: {
    method: 'POST',
    path: '/api/sign-in',
    body: signing.SignIn,
    answer: { status: 200, is: signing.SignedIn },
  },
  signInDemo: {
    method: 'POST',
    path: '/api/sign-in/demo',
    body: signing.SignInDemo,
    answer: { status: 200, is: signing.SignedIn },
  },
  signedIn: {
    method: 'GET',
    path: '/api/sign-in',
    answer: { status: 200, is: signing.SignedIn },
  },
  signInByCode: {
    method: 'POST',
    path: '/api/sign-in/code',
    body: signing.SignInByCode,
    answer: { status: 200, is: signing.SignedIn },
  },
  firstAdministrator: {
    method: 'POST',
    path: '/api/sign-in/first',
    body: signing.FirstAdministrator,
    answer: { status: 200, is: signing.SignedIn },
  },
  confirm: {
    method: 'POST',
    path: '/api/sign-in/confirm',
    body: signing.Confirm,
    answer: { status: 200, is: signing.SignedIn },
  },
  newSecret: {
    method: 'POST',
    path: '/api/sign-in/secret',
    body: signing.NewSecret,
    answer: { status: 200, is: signing.SignedIn },
  },
  signOut: {
    method: 'POST',
    path: '/api/sign-out',
    answer: { status: 200, is: signing.SignedOut },
  },
  giveCode: {
    method: 'POST',
    path: '/api/people/code',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
  },
  endSignIns: {
    method: 'POST',
    path: '/api/people/sign-out',
    body: signing.CodeAsked,
    answer: { status: 200, is: signing.Done },
  },
  giveDuty: {
    method: 'POST',
    path: '/api/people/duty',
    body: signing.Duty,
    answer: { status: 200, is: signing.Done },
  },
  setHome: {
    method: 'POST',
    path: '/api/people/animals',
    body: signing.Home,
    answer: { status: 200, is: signing.Done },
  },
  devices: {
    method: 'GET',
    path: '/api/devices',
    answer: { status: 200, is: signing.DeviceList },
  },
  deviceCode: {
    method: 'POST',
    path: '/api/devices/code',
    body: signing.DeviceCodeAsked,
    answer: { status: 200, is: signing.CodeGiven },
  },
  enrol: {
    method: 'POST',
    path: '/api/devices/enrol',
    body: signing.Enrol,
    answer: { status: 200, is: signing.Enrolled },
  },
  nameDevice: {
    method: 'POST',
    path: '/api/devices/name',
    body: signing.DeviceNamed,
    answer: { status: 200, is: signing.Done },
  },
  revokeDevice: {
    method: 'POST',
    path: '/api/devices/revoke',
    body: signing.DeviceRevoked,
    answer: { status: 200, is: signing.Done },
  },
  apart: {
    method: 'GET',
    path: '/api/apart',
    answer: { status: 200, is: signing.ApartList },
  },
  judgeApart: {
    method: 'POST',
    path: '/api/apart',
    body: signing.JudgeApart,
    answer: { status: 200, is: signing.Judged },
  },
} as const satisfies Record<string, Route>;
