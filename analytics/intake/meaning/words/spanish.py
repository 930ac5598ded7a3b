"""General Spanish words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Número de cita | N.º de cita | Nº cita | Núm cita | ID cita | ID de la cita | Código de cita | "
    "Número de reserva | Nº reserva | ID reserva | Código de reserva | Número de visita | Nº visita",
    "client_id": "Número de cliente | Nº cliente | Nº clienta | Núm cliente | ID cliente | ID clienta | "
    "Código de cliente | Código cliente | Cód cliente | Número de clienta",
    "client": "Cliente | Clienta | Nombre del cliente | Nombre de la clienta | Nombre cliente | Cliente/clienta | "
    "Cliente/a | Nombre completo | Nombre y apellidos | Apellidos y nombre",
    "stylist": "Estilista | Peluquero | Peluquera | Peluquero/a | Colorista | Empleado | Empleada | Empleado/a | "
    "Profesional | Trabajador | Trabajadora | Atendido por | Realizado por",
    "chair": "Sillón | Silla | Nº sillón | Número de sillón | Nº silla | Tocador",
    "service_id": "Número de servicio | Nº servicio | Código de servicio | Código servicio | ID servicio | "
    "Cód servicio | Código de tratamiento | ID tratamiento",
    "service": "Servicio | Tratamiento | Nombre del servicio | Nombre servicio | Servicio realizado",
    "product_id": "Número de producto | Nº producto | Código de producto | Código producto | ID producto | "
    "Cód producto | Nº artículo | Código de artículo | Código artículo | ID artículo | Referencia del producto | "
    "Ref producto | Referencia del artículo | Ref. artículo | Referencia artículo | Ref. producto",
    "product": "Producto | Nombre del producto | Nombre producto | Artículo | Nombre del artículo",
    "discount": "Descuento | Importe del descuento | Importe descuento | Rebaja | Dto",
    "tip": "Propina | Propinas",
    "tax_rate": "IVA % | Tipo de IVA | Tipo IVA | Porcentaje de IVA | Tasa de IVA | Tipo impositivo | "
    "Tasa de impuesto | Impuesto %",
    "valid_from": "Válido desde | Válida desde | Vigente desde | En vigor desde | Válido a partir de | "
    "Fecha de vigencia | Vigente a partir de | Fecha desde | Inicio de vigencia",
    "site": "Sucursal | Salón | Nombre del salón | Centro",
    "time": "Hora",
}

PARTICULAR = {
    "bookings": {
        "line": "Línea | Nº línea | Número de línea | Renglón",
        "starts_at": "Fecha y hora | Fecha/hora | Fecha hora | Fecha y hora de inicio | Fecha y hora de la cita | "
        "Fecha y hora inicio",
        "ends_at": "Fecha y hora de fin | Fecha y hora fin | Fecha y hora de finalización",
        "day": "Fecha | Fecha de la cita | Fecha de cita | Fecha cita | Fecha de la visita | Fecha visita",
        "start_time": "Hora | Hora de inicio | Hora inicio | Hora de comienzo | Hora de la cita | Hora cita | "
        "Hora desde",
        "end_time": "Hora de fin | Hora fin | Hora de finalización | Hora final | Hora hasta | Hora de término",
        "minutes": "Duración | Duración en minutos | Minutos | Número de minutos | Duración de la cita",
        "status": "Estado | Estado de la cita | Estado cita | Situación de la cita | Situación",
        "price": "Precio | Tarifa | Precio del servicio | Precio antes de descuento | Precio de lista",
        "booked_on": "Reservado el | Cita tomada el | Cita pedida el | Reserva hecha el",
        "regrowth_mm": "Crecimiento de raíz | Crecimiento de raíz mm | Raíz (mm) | Crecimiento de la raíz | "
        "Crecimiento en mm",
    },
    "services": {
        "service": "Nombre | Denominación",
        "kind": "Tipo | Categoría | Clase | Tipo de servicio | Categoría de servicio | Clase de servicio",
        "price": "Precio | Tarifa | Precio del servicio | Precio de lista",
        "hands_on_min": "Tiempo de trabajo | Minutos de trabajo | Tiempo activo | Tiempo de manos | "
        "Tiempo de trabajo en minutos",
        "processing_min": "Tiempo de exposición | Tiempo de pose | Tiempo de actuación | Minutos de exposición | "
        "Tiempo de reposo | Exposición",
        "resets_roots": "Colorea la raíz | Cubre la raíz | Colorea las raíces | Cubre las raíces | Tiñe la raíz",
        "valid_from": "A partir del | A partir de",
    },
    "product_log": {
        "logged_at": "Fecha | Fecha y hora | Fecha/hora | Fecha hora | Mezclado el | Fecha de mezcla | "
        "Fecha de la mezcla | Preparado el",
        "stylist": "Mezclado por | Preparado por",
        "mixed_g": "Cantidad mezclada | Mezclado | Mezclada | Cantidad (g) | Gramos mezclados | Cantidad preparada | "
        "Peso mezclado | Preparado",
        "left_g": "Sobrante | Resto | Cantidad sobrante | Sobra | Restante | Cantidad restante | Gramos sobrantes | "
        "Gramos restantes",
        "time": "Hora de mezcla",
    },
    "products": {
        "product": "Nombre | Denominación",
        "kind": "Tipo | Categoría | Clase | Tipo de producto | Categoría de producto | Clase de producto | "
        "Familia de producto | Familia | Uso",
        "pack_g": "Contenido (g) | Contenido del envase (g) | Peso neto (g) | Envase (g) | Peso (g) | Tamaño (g) | "
        "Gramos por envase | Contenido neto (g) | Peso neto | Peso por envase | Peso del envase",
        "pack_cost": "Precio de compra | Precio de compra sin IVA | Coste de compra | Coste del envase | "
        "Coste por envase | Precio de coste | Precio de costo | Costo de compra | Costo por envase | Coste sin IVA",
        "strength_percent": "Fuerza | Fuerza % | Concentración | Concentración % | Peróxido % | Agua oxigenada % | "
        "Graduación % | Oxidante % | H2O2",
    },
    "clients": {
        "client": "Nombre",
        "phone": "Teléfono | Número de teléfono | Nº teléfono | Tel | Móvil | Teléfono móvil | Celular | "
        "Número de móvil | Teléfono celular | Tfno | Telf",
        "email": "Correo | Correo electrónico | E-mail | Dirección de correo | Dirección de correo electrónico | Mail",
        "may_contact": "Se puede contactar | Contacto permitido | Permiso de contacto | Autoriza contacto | "
        "Consentimiento de contacto | Acepta contacto",
        "natural_level": "Altura de tono natural | Nivel natural | Tono natural nivel | Altura natural | "
        "Base natural | Tono natural",
        "target_level": "Altura de tono deseada | Nivel deseado | Altura deseada | Nivel objetivo | "
        "Altura de tono objetivo | Tono deseado | Tono objetivo",
        "grey_share": "Proporción de canas | Parte de canas | Proporción canas | Canas % | Porcentaje de canas",
        "patch_tested_on": "Prueba de alergia | Fecha de prueba de alergia | Fecha de la prueba de alergia | "
        "Prueba cutánea | Fecha de prueba cutánea | Test de alergia | Fecha test de alergia | Prueba de parche | "
        "Última prueba de alergia | Fecha de la prueba cutánea | Fecha de prueba de parche",
    },
    "payments": {
        "paid_at": "Fecha | Fecha y hora | Fecha/hora | Fecha hora | Pagado el | Fecha de pago | Fecha del pago | "
        "Fecha de cobro | Cobrado el",
        "method": "Forma de pago | Método de pago | Medio de pago | Modo de pago | Tipo de pago | Forma de cobro | "
        "Pagado con",
        "amount": "Importe | Monto | Importe pagado | Cantidad pagada | Importe del pago | Importe cobrado | Cobrado",
        "fee": "Comisión | Comisiones | Gastos de transacción | Comisión bancaria | Comisión de tarjeta",
        "time": "Hora de pago | Hora del pago",
        "purpose": "Concepto del pago | Pago de | Motivo del pago",
        "voucher": "N.º de vale | Número de vale | Número de bono | Código de vale",
    },
    "sales": {
        "sold_at": "Fecha | Fecha y hora | Fecha/hora | Fecha hora | Vendido el | Fecha de venta | Fecha de la venta",
        "quantity": "Cantidad | Unidades | Piezas | Cantidad vendida | Unidades vendidas | Cant | Uds",
        "price": "Precio | Precio unitario | Precio de venta | Precio por unidad | P unitario | Precio/unidad | PVP",
        "stylist": "Vendido por | Vendedor | Vendedora",
        "time": "Hora de venta | Hora de la venta",
    },
    "stock_moves": {
        "moved_at": "Fecha | Fecha y hora | Fecha/hora | Fecha hora | Fecha del movimiento | Fecha de movimiento",
        "movement": "Movimiento | Tipo de movimiento | Clase de movimiento | Movimiento de existencias | Operación | "
        "Concepto",
        "packs": "Envases | Número de envases | Unidades | Piezas | Nº envases | Paquetes | Cantidad (unidades)",
        "grams": "Gramos | Peso | Peso (g) | Cantidad (g)",
        "unit_cost": "Coste unitario | Costo unitario | Precio de compra | Coste por envase | Precio de coste | "
        "Costo por envase | Precio por envase | Precio de compra por envase",
        "expires_on": "Fecha de caducidad | Caducidad | Fecha de vencimiento | Caduca el | Consumir antes de",
    },
    "vouchers": {
        "number": "Vale | Vale regalo | N.º de vale | Número de vale | Número de bono | Código de vale",
        "sold_on": "Vendido el | Fecha de venta | Emitido el | Fecha de emisión",
        "face": "Valor nominal | Valor del vale | Valor",
        "paid": "Pagado | Importe pagado | Precio de venta | Precio",
        "expires_on": "Caduca el | Fecha de caducidad | Válido hasta | Vence el",
        "used": "Usado | Utilizado | Importe usado | Canjeado",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Día",
    "amount": "Importe",
    "booked": "Fecha de reserva | Fecha de la reserva",
    "description": "Descripción",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Inicio | Comienzo | Desde | Inicio de la cita | Comienzo de la cita"
ENDS = "Fin | Final | Hasta | Fin de la cita | Final de la cita"
HALF_NAMES = "Apellido | Apellidos | Primer apellido"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Proveedor | Proveedores | Pedido | Pedidos | Compras | Gastos"

VALUES = {
    "status": {
        "completed": "completado | completada | terminado | terminada | realizado | realizada | hecho | hecha | "
        "finalizado | finalizada | atendido | atendida",
        "booked": "reservado | reservada | confirmado | confirmada | programado | programada | previsto | prevista | "
        "pendiente",
        "cancelled": "cancelado | cancelada | anulado | anulada",
        "no_show": "no presentado | no presentada | no se presentó | no asistió | no vino | ausente | no acudió",
    },
    "services.kind": {
        "root_touch_up": "raíz | raíces | retoque de raíz | retoque de raíces | tinte de raíz | tinte de raíces | "
        "color de raíz | color raíz | retoque raíz | tinte raíz",
        "full_colour": "color completo | tinte completo | coloración completa | color entero | tinte entero",
        "lightening": "decoloración | mechas | balayage | aclarado | aclaración | reflejos",
        "toner": "matiz | matizado | tonalizante | tóner | matizador",
        "cut": "corte | corte de pelo | corte de cabello",
        "styling": "peinado | secado | brushing | recogido | marcado",
        "treatment": "tratamiento | tratamiento capilar | cuidado | hidratación | mascarilla",
        "other": "otro | otros | otra | otras | varios",
    },
    "products.kind": {
        "colour": "color | tinte | coloración | tinte de pelo",
        "developer": "oxidante | revelador | agua oxigenada | peróxido",
        "lightener": "decolorante | polvo decolorante | crema decolorante | aclarante | decoloración",
        "additive": "aditivo | aditivos",
        "retail": "venta | reventa | producto de venta | venta al público | para venta",
    },
    "purpose": {
        "visit": "visita | cita | servicio",
        "deposit": "depósito | señal | anticipo",
        "voucher": "venta de vale | vale vendido | vale regalo",
    },
    "method": {
        "cash": "efectivo | en efectivo | metálico | al contado",
        "card": "tarjeta | tarjeta de crédito | tarjeta de débito | con tarjeta | tarjeta bancaria",
        "bank": "banco | transferencia | transferencia bancaria | domiciliación",
        "voucher": "vale | bono regalo | tarjeta regalo | vale regalo | cheque regalo",
        "other": "otro | otros | otra | otras",
    },
    "movement": {
        "delivery": "entrega | entregado | recepción | recibido | entrada de mercancía | entrada",
        "count": "recuento | inventario | conteo | contado",
        "returned": "devolución | devuelto | devuelta | devolución al proveedor | devuelto al proveedor",
        "discarded": "desechado | descartado | tirado | eliminado | desecho | desperdicio",
    },
    "yes_no": {"yes": "sí | s | verdadero", "no": "no | n | falso"},
}

TOTALS = "total | totales | subtotal | total general | suma | suma total"

TABLES = {
    "bookings": "citas | reservas | agenda",
    "services": "servicios | tarifas | lista de precios | carta de servicios",
    "product_log": "mezclas | registro de mezclas | hoja de mezclas | registro de color",
    "products": "productos | artículos | lista de productos",
    "clients": "clientes | clientas | lista de clientes | fichero de clientes",
    "payments": "pagos | cobros | caja",
    "sales": "ventas | venta",
    "stock_moves": "existencias | movimientos de existencias | almacén | entregas | inventario",
    "vouchers": "vales | vales regalo | vale regalo | bonos regalo | registro de vales",
}
