import { expect, test } from "vitest";
import { rigJsonSchema } from "../../../src/rig/file/rigJsonSchema.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";

/** JSON Schema 2020-12 (core, section 8.1.1; validation, sections 6.2 and 10): an editor needs no more than this. */
test("every model has its own settings, with the bounds of its table", () => {
  const schema: unknown = JSON.parse(JSON.stringify(rigJsonSchema()));
  expect(schema).toMatchObject({
    $schema: "https://json-schema.org/draft/2020-12/schema",
    type: "object",
    required: ["name", "pedals"],
    additionalProperties: false,
  });
  for (const [model, { settings }] of Object.entries(pedalModels)) {
    const properties = Object.fromEntries(
      Object.entries(settings).map(([key, setting]) => {
        if ("file" in setting) return [key, { type: "string" }];
        if ("choices" in setting)
          return [key, { type: "string", enum: setting.choices, default: setting.default }];
        if (!("min" in setting)) return [key, { type: "boolean", default: setting.default }];
        const { min, max, whole } = setting;
        return [
          key,
          { type: whole ? "integer" : "number", minimum: min, maximum: max, default: setting.default },
        ];
      }),
    );
    const needsFile = Object.values(settings).some((setting) => "file" in setting);
    expect(schema).toMatchObject({
      properties: {
        pedals: {
          type: "array",
          maxItems: 64,
          items: {
            oneOf: expect.arrayContaining([
              expect.objectContaining({
                properties: expect.objectContaining({
                  model: { type: "string", const: model },
                  settings: expect.objectContaining({
                    additionalProperties: false,
                    properties: expect.objectContaining(
                      Object.fromEntries(
                        Object.entries(properties).map(([key, value]) => [
                          key,
                          expect.objectContaining(value),
                        ]),
                      ),
                    ),
                  }),
                }),
                required: needsFile ? ["name", "model", "jacks", "settings"] : ["name", "model", "jacks"],
              }),
            ]),
          },
        },
      },
    });
  }
});
