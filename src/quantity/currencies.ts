/**
 * Money by ISO 4217: every alphabetic code of List One that has a minor unit, so all currencies and funds, without the
 * precious metals, bond units and test codes, in which nobody is paid.
 *
 * Source: ISO 4217 List One as published 2024-06-25. `XCG` (Caribbean guilder, in use since 2025) was added from memory.
 * A code withdrawn later stays, since old notes hold it.
 */

const BY_MINOR_DIGITS: readonly (readonly [digits: number, codes: string])[] = [
  [
    2,
    'AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF ' +
      'CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG ' +
      'HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK ' +
      'MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE ' +
      'SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ' +
      'ZWG',
  ],
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
  [4, 'CLF UYW'],
];

let table: Map<string, number> | null = null;

/** Digits after the point of each currency's smallest coin, by code. */
export function currencies(): ReadonlyMap<string, number> {
  table ??= new Map(
    BY_MINOR_DIGITS.flatMap(([digits, codes]) => codes.split(' ').map((code) => [code, digits] as const)),
  );
  return table;
}
