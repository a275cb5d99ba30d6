declare module "wav-decoder" {
  export interface AudioData {
    sampleRate: number;
    channelData: Float32Array[];
  }
  const wavDecoder: {
    decode: { sync(bytes: ArrayBuffer, options?: { symmetric?: boolean }): AudioData };
  };
  export default wavDecoder;
}

declare module "wav-encoder" {
  export interface EncodeOptions {
    bitDepth?: 8 | 16 | 24 | 32;
    float?: boolean;
    symmetric?: boolean;
  }
  const wavEncoder: {
    encode: {
      sync(
        data: { sampleRate: number; channelData: readonly Float32Array[] },
        options?: EncodeOptions,
      ): ArrayBuffer;
    };
  };
  export default wavEncoder;
}
