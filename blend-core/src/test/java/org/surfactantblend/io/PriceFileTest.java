package org.surfactantblend.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.surfactantblend.Blends;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.material.PriceList;
import org.surfactantblend.problem.Loaded;
import org.surfactantblend.problem.Problem;

class PriceFileTest {
  private final MaterialTable table = Blends.starterTable();

  private Loaded<PriceList> csv(String text) {
    return PriceFile.readCsv(Input.text("prices.csv", text), table);
  }

  private Loaded<PriceList> json(String text) {
    return PriceFile.readJson(Input.text("prices.json", text), table);
  }

  private static List<String> places(Loaded<PriceList> loaded) {
    return loaded.problems().stream().map(p -> p.code() + " " + p.place()).toList();
  }

  @Test
  void pricesAreRead() {
    PriceList prices =
        csv("material_id,price_per_kg,currency,supplier\nglycerin,1.5,EUR,X\nwater,0,,\n")
            .orElseThrow();
    assertEquals("EUR", prices.currency());
    assertEquals(1.5, prices.pricePerKg("glycerin").orElseThrow());
    assertEquals(0, prices.pricePerKg("water").orElseThrow());
    assertEquals("cu", csv("material_id,price_per_kg\nglycerin,1.5\n").orElseThrow().currency());
  }

  @Test
  void everyFaultIsPlacedAndTheGoodRowsStay() {
    Loaded<PriceList> loaded =
        csv(
            """
            material_id,price_per_kg,currency
            glycerin,"1,5",EUR
            glycerine,2,EUR
            water,-1,EUR
            ,3,EUR
            propanediol,,EUR
            xanthan-gum,7,USD
            decyl-glucoside-52,4 %,EUR
            decyl-glucoside-52,4,EUR
            decyl-glucoside-52,5,EUR
            """);
    assertEquals(
        List.of(
            "decimal-comma prices.csv row 2 column price_per_kg",
            "unknown-material prices.csv row 3 column material_id",
            "number-range prices.csv row 4 column price_per_kg",
            "missing-value prices.csv row 5 column material_id",
            "missing-value prices.csv row 6 column price_per_kg",
            "currency-mixed prices.csv row 7 column currency",
            "percent-sign prices.csv row 8 column price_per_kg",
            "duplicate-id prices.csv row 10 column material_id"),
        places(loaded));
    assertEquals(Set.of("glycerine", "decyl-glucoside-52"), loaded.value().materialIds());
    Problem unknown = loaded.problems().get(1);
    assertEquals("glycerin", unknown.advice());
    assertTrue(!unknown.isError());
    assertEquals("a number from 0 up per kg as supplied", loaded.problems().get(2).allowed());
  }

  @Test
  void pricesFromJson() {
    PriceList prices =
        json("{\"currency\": \"EUR\", \"pricesPerKg\": {\"glycerin\": 1.5, \"water\": 0}}")
            .orElseThrow();
    assertEquals("EUR", prices.currency());
    assertEquals(1.5, prices.pricePerKg("glycerin").orElseThrow());
    assertEquals("2 prices in EUR per kg", prices.toString());
    assertEquals(List.of(), json(PriceFile.writeJson(prices)).problems());
    assertEquals("no prices", PriceList.EMPTY.toString());
  }

  @Test
  void whatCostsNothingIsWarnedOfUnlessItIsWater() {
    Loaded<PriceList> csv = csv("material_id,price_per_kg\nglycerin,0\nwater,0\n");
    assertEquals(List.of("price-of-nothing prices.csv row 2 column price_per_kg"), places(csv));
    assertEquals(0, csv.orElseThrow().pricePerKg("glycerin").orElseThrow());
    assertEquals("leave the price out while it is not known", csv.problems().get(0).advice());
    assertEquals(
        List.of("price-of-nothing prices.json $.pricesPerKg.glycerin"),
        places(json("{\"pricesPerKg\": {\"glycerin\": 0, \"water\": 0}}")));
  }

  @Test
  void faultsInJson() {
    assertEquals(
        List.of(
            "unknown-field prices.json $.curency",
            "decimal-comma prices.json $.pricesPerKg.glycerin",
            "json-type prices.json $.pricesPerKg.water",
            "unknown-material prices.json $.pricesPerKg.x"),
        places(
            json(
                "{\"curency\": \"EUR\", \"pricesPerKg\":"
                    + " {\"glycerin\": \"1,5\", \"water\": [], \"x\": 3}}")));
    assertEquals(
        List.of("control-character prices.json $.pricesPerKg.'a\\u0000'"),
        places(json("{\"pricesPerKg\": {\"a\\u0000\": 3}}")));
    assertEquals(List.of("json-type prices.json $"), places(json("[]")));
    assertEquals(List.of("missing-value prices.json $"), places(json("{}")));
    assertEquals(List.of("no-rows prices.json $"), places(json("{\"pricesPerKg\": {}}")));
    assertEquals(List.of("json-type prices.json $"), places(json("{\"pricesPerKg\": 5}")));
  }

  @Test
  void whatIsWrittenReadsBack() {
    for (PriceList prices :
        List.of(
            Blends.demoPrices(),
            PriceList.of("=cu", Map.of("glycerin", 1e-7, "water", 123456.789, "x;y", 1e300)),
            PriceList.of("-1", Map.of("glycerin", 0.1)))) {
      same(prices, csv(PriceFile.writeCsv(prices)));
      same(prices, json(PriceFile.writeJson(prices)));
    }
    assertEquals(Set.of(), csv(PriceFile.writeCsv(PriceList.EMPTY)).value().materialIds());
    assertEquals(Set.of(), json(PriceFile.writeJson(PriceList.EMPTY)).value().materialIds());
  }

  private static void same(PriceList prices, Loaded<PriceList> back) {
    assertEquals(prices.currency(), back.orElseThrow().currency());
    assertEquals(prices.materialIds(), back.value().materialIds());
    for (String id : prices.materialIds()) {
      assertEquals(prices.pricePerKg(id), back.value().pricePerKg(id));
    }
  }
}
